/** The player's own routine files: a copy finds what it includes, and one with a mistake never loses the day. */
import { copyFileSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { packageRoot } from '../../../src/audio/package-folder.ts';
import { routinesOf, routinesStamp } from '../../../src/runtime/files/routine-cache.ts';
import { readRoutineFile } from '../../../src/runtime/files/routine-reader.ts';
import { eachInOwnFolder } from '../folder.ts';
import { dayText, put } from '../routines.ts';

const folder = eachInOwnFolder();
const own = (name: string): string => join(folder(), 'routines', name);
const packaged = (name: string): string => join(packageRoot(), 'routines', name);

const routine = async (id: string) =>
  (await routinesOf(folder())).routines.find((one) => one.routine.id === id)?.routine ?? null;
const troubles = async () => (await routinesOf(folder())).troubles.map(({ file, sentence }) => `${file}: ${sentence}`);

describe('a packaged routine copied into the player’s own folder', () => {
  const all = readdirSync(join(packageRoot(), 'routines')).filter((name) => name.endsWith('.yaml'));

  it.each(all)('%s is sound there, with all that it includes', async (name) => {
    put(own('other.yaml'), dayText('Other'));
    copyFileSync(packaged(name), own(name));
    const [there, here] = [readRoutineFile(packaged(name)), readRoutineFile(own(name))];
    expect('troubles' in here ? here.troubles : []).toEqual([]);
    expect(here).toEqual(there);
    expect(await troubles()).toEqual([]);
  });

  it('goes by an include of its own where one lies beside it', async () => {
    put(own('body-common.yaml'), 'exercises: {sigh: {title: My own sigh}}\n');
    put(own('a.yaml'), 'include: body-common.yaml\nroutine: A\nparts: [{part: P, blocks: [sigh: 5]}]\n');
    expect((await routine('a'))?.parts[0]?.blocks[0]?.title).toBe('My own sigh');
  });
});

describe('an own file with a mistake in it', () => {
  it('is used as it was before, and the mistake is named with its place', async () => {
    put(own('mine.yaml'), dayText('Mine'));
    expect((await routine('mine'))?.title).toBe('Mine');
    put(own('mine.yaml'), dayText('Mine').replace('A, blocks', 'A, blokcs'));
    expect((await routine('mine'))?.title).toBe('Mine');
    const [first] = await troubles();
    expect(first).toBe(
      "mine.yaml: 'blocks' is missing; write a list of blocks. Until it is mended, what it said before is used.",
    );
  });

  it('is used in its new form as soon as it is mended', async () => {
    put(own('mine.yaml'), dayText('Mine'));
    await routine('mine');
    put(own('mine.yaml'), 'routine: [\n');
    await routine('mine');
    put(own('mine.yaml'), dayText('Mended', 'mine'));
    expect((await routine('mine'))?.title).toBe('Mended');
    expect(await troubles()).toEqual([]);
  });

  it('takes nothing else with it: a file that includes it is used as it was', async () => {
    put(own('common.yaml'), 'exercises: {five: {title: Five}}\n');
    put(own('a.yaml'), 'include: common.yaml\nroutine: A\nparts: [{part: P, blocks: [five: 5]}]\n');
    await routine('a');
    put(own('common.yaml'), 'exercises: {five: {title: 5 }\n');
    expect((await routine('a'))?.parts[0]?.blocks[0]?.title).toBe('Five');
    put(own('a.yaml'), 'include: common.yaml\nroutine: [\n');
    expect((await routine('a'))?.parts[0]?.blocks[0]?.title).toBe('Five');
  });

  it('that never was sound leaves the packaged one of its name, or nothing', async () => {
    put(own('cornet-daily.yaml'), 'routine: 5\n');
    put(own('mine.yaml'), 'routine: [\n');
    expect((await routine('cornet-daily'))?.title).toBe('Cornet, every day');
    expect(await routine('mine')).toBeNull();
    expect((await troubles())[0]).toMatch(/the packaged file of this name is used\.$/);
  });

  it('is read again by whoever looks whether anything has changed', () => {
    put(own('mine.yaml'), dayText('Mine'));
    const before = routinesStamp(folder());
    expect(routinesStamp(folder())).toBe(before);
    put(own('mine.yaml'), dayText('Mine', 'longer'));
    const after = routinesStamp(folder());
    expect(after).not.toBe(before);
    rmSync(own('mine.yaml'));
    expect(routinesStamp(folder())).not.toBe(after);
  });
});

describe('a block', () => {
  it('plays an exercise of another file by its file and name', async () => {
    put(own('five-notes.yaml'), 'exercises: {five-notes: {title: Mine}}\n');
    const blocks = '[five-notes/five-notes: 5, cornet-daily/five-notes: 4, {play: cornet-daily/thirds, minutes: 3}]';
    put(own('list.yaml'), `routine: List\nparts: [{part: P, blocks: ${blocks}}]\n`);
    const found = await routine('list');
    expect(await troubles()).toEqual([]);
    expect(found?.parts[0]?.blocks.map(({ title, minutes }) => `${title} ${minutes}`)).toEqual([
      'Mine 5',
      'Five-note study 4',
      'Thirds up and down 3',
    ]);
    const daily = await routine('cornet-daily');
    const kept = (id = '') => daily?.exercises.some((one) => one.id === id);
    const [, five, thirds] =
      found?.parts[0]?.blocks.map(({ content }) => 'exercise' in content && content.exercise) ?? [];
    expect([kept(five || ''), kept(thirds || '')]).toEqual([true, true]);
  });

  it.each([
    ['nowhere/five-notes', "'nowhere.yaml' cannot be used: there is no such file."],
    ['cornet-daily/six-notes', "there is no exercise 'cornet-daily/six-notes'."],
  ])('that plays %s says what is wrong', async (name, sentence) => {
    put(own('list.yaml'), `routine: List\nparts: [{part: P, blocks: [${name}: 5]}]\n`);
    expect((await troubles())[0]).toBe(`list.yaml: ${sentence}`);
  });
});
