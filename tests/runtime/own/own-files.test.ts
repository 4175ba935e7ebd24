/** Own exercises on a real disk: kept, with editors writing at the same time, and drafts. */
import * as fs from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterEach, describe, expect, it } from 'vitest';
import type { ListItem } from '../../../src/diary/entry.ts';
import { BLANK_FORM } from '../../../src/plan/own/own-form.ts';
import { changeFile } from '../../../src/runtime/own/file-changed-once.ts';
import { draftKeeper, readDraft } from '../../../src/runtime/own/draft-file.ts';
import { type OwnFiles, openOwnFiles } from '../../../src/runtime/own/own-files.ts';
import { knownOf, loadedFor } from '../../../src/runtime/own/routines-known.ts';
import { readSettings } from '../../../src/runtime/files/settings.ts';
import { standside } from '../../cli/typed.ts';
import { eachInOwnFolder } from '../folder.ts';
import { put } from '../routines.ts';

const folder = eachInOwnFolder();
const mine = (): string => join(folder(), 'routines', 'my-exercises.yaml');
const text = (): string => fs.readFileSync(mine(), 'utf8');

async function open(): Promise<OwnFiles> {
  const { settings } = await readSettings(folder());
  const read = async () => knownOf(await loadedFor(folder(), settings), folder(), settings);
  const taken = async () => new Set((await read()).exercises.map(({ id }) => id));
  return openOwnFiles({ dataFolder: folder(), read, taken, log: () => {} });
}

const form = (title: string, from = '60') => ({ ...BLANK_FORM, title, from });
const fresh = (title: string) => ({ fields: form(title), start: BLANK_FORM, of: null });

describe('an exercise that is kept', () => {
  it('is in the player’s own file, and known at once under an id for ever', async () => {
    const own = await open();
    const { answer, read } = await own.carryOut({ do: 'keep', draft: fresh('Page') });
    expect(answer).toEqual({ sentence: 'Page: kept.', written: { file: 'my-exercises', name: 'page' } });
    expect(read?.exercises[0]).toMatchObject({ id: 'page', history: 'page', title: 'Page' });
    await own.carryOut({ do: 'keep', draft: fresh('Page') });
    expect(text().match(/history: .*/g)).toEqual(['history: page', 'history: page-2']);
  });

  it('keeps its id when it is called otherwise, by hand or on the screen', async () => {
    const own = await open();
    await own.carryOut({ do: 'keep', draft: fresh('Page') });
    const of = { file: 'my-exercises', name: 'page' };
    const { read } = await own.carryOut({ do: 'keep', draft: { fields: form('Sheet'), start: form('Page'), of } });
    expect(read?.exercises[0]).toMatchObject({ id: 'page', title: 'Sheet' });
    fs.writeFileSync(mine(), text().replace('  page:', '  another-name:'));
    const after = await own.carryOut({ do: 'keep', draft: fresh('Other') });
    expect(after.read?.exercises[0]).toMatchObject({ id: 'page', name: 'another-name', title: 'Sheet' });
  });

  it('is retired and brought back, its history untouched', async () => {
    const own = await open();
    await own.carryOut({ do: 'keep', draft: fresh('Page') });
    const before = text();
    const place = { file: 'my-exercises', name: 'page' };
    const { read, answer } = await own.carryOut({ do: 'retire', place, isRetired: true });
    expect(answer.sentence).toBe('Page: retired; what was played of it stays.');
    expect(read?.exercises.at(-1)).toMatchObject({ id: 'page', retired: true });
    await own.carryOut({ do: 'retire', place, isRetired: false });
    expect(text()).toBe(before);
  });

  it.each([
    [
      'that is broken',
      () => put(mine(), 'exercises: [\n'),
      /^my-exercises\.yaml, line \d+.* Mend it; what you typed is kept\.$/,
    ],
    ['where a folder is in the way', () => fs.mkdirSync(mine(), { recursive: true }), /could not be written/],
  ])('is not lost in a file %s', async (_, prepare, sentence) => {
    prepare();
    const before = fs.statSync(mine()).isFile() ? text() : '';
    const { answer, read } = await (await open()).carryOut({ do: 'keep', draft: fresh('Page') });
    expect(answer.sentence).toMatch(sentence);
    expect([answer.written, read]).toEqual([null, null]);
    if (before) expect(text()).toBe(before);
  });
});

describe('a copy', () => {
  const packaged = { file: 'cornet-daily', name: 'drone-slurs' };
  const copy = async (copied: typeof packaged) =>
    (await open()).carryOut({ do: 'keep', draft: { ...fresh('Mine'), copied } });

  it('of a packaged exercise has what its file says and the form does not show', async () => {
    const { read, answer } = await copy(packaged);
    expect(answer.sentence).toBe('Mine: kept.');
    const [own, there] = [read?.exercises[0], read?.exercises.find(({ id }) => id === 'drone-slurs')];
    expect(own).toMatchObject({ title: 'Mine', drone: there?.drone, ladder: { step: there?.ladder.step } });
    expect(there?.drone).toBeDefined();
  });

  it('of an own exercise in a file that is broken by now has what its last sound version says', async () => {
    const path = put(join(folder(), 'routines', 'other.yaml'), 'exercises: {page: {layers: [sing, play]}}\n');
    await (await open()).carryOut({ do: 'keep', draft: fresh('Page') });
    put(path, 'exercises: [\n');
    const { read } = await copy({ file: 'other', name: 'page' });
    expect(read?.exercises.find(({ title }) => title === 'Mine')?.layers).toEqual(['sing', 'play']);
  });

  it('of what is no longer there has what the form shows, and that is said', async () => {
    const { read, answer } = await copy({ file: 'cornet-daily', name: 'gone' });
    expect(answer.sentence).toMatch(/^Mine: kept\. What it was a copy of is no longer there/);
    expect(read?.exercises[0]).toMatchObject({ title: 'Mine', ladder: { start: 60 } });
  });
});

describe('a list that is kept as a routine', () => {
  const day = (): string => join(folder(), 'routines', 'band-days.yaml');
  const thing = (exercise: string | null, title: string, length = 300) => ({ exercise, title, length });
  const keep = async (items: readonly ListItem[], title = 'Band days') =>
    (await open()).carryOut({ do: 'routine', title, instrument: 'flute', items });

  it('is a file as a person would write it, which the program’s own check finds right', async () => {
    await (await open()).carryOut({ do: 'keep', draft: fresh('Page') });
    const items = [thing('page', 'Page'), thing('long-tones', 'Long tones', 450), thing(null, 'Low, soft: notes', 40)];
    const { answer, read } = await keep(items);
    expect(answer.sentence).toBe('Band days: kept as a routine; r on Today chooses it.');
    expect(fs.readFileSync(day(), 'utf8').split('\n')).toEqual([
      '# A list by hand, kept from the screen.',
      'routine: Band days',
      'instrument: flute',
      '',
      'parts:',
      '  - part: Band days',
      '    blocks:',
      '      - my-exercises/page: 5',
      '      - cornet-daily/long-tones: 7.5',
      '      - {do: "Low, soft: notes", minutes: 0.5}',
      '',
    ]);
    const said = await standside('--data', folder(), 'routine', 'check', day());
    expect([said.code, said.err]).toEqual([0, '']);
    expect(said.out).toBe('sound  band-days: 1 part, 3 blocks, 2 exercises, 13 min\n');
    const routine = read?.routines.find(({ id }) => id === 'band-days');
    expect(routine?.parts[0]?.blocks.map(({ title, minutes }) => [title, minutes])).toEqual([
      ['Page', 5],
      ['Long tones', 7.5],
      ['Low, soft: notes', 0.5],
    ]);
    expect(routine?.exercises.map(({ id }) => id)).toEqual(['page', 'long-tones']);
  });

  it('takes another name where there is one of that name', async () => {
    await keep([thing('five-notes', 'Five-note study')]);
    const before = fs.readFileSync(day(), 'utf8');
    const { read } = await keep([thing('long-tones', 'Long tones')]);
    expect(fs.readFileSync(day(), 'utf8')).toBe(before);
    expect(read?.routines.map(({ id }) => id)).toContain('band-days-2');
  });

  it.each(['two words.yaml', 'short.yml', 'Übungen.yaml'])('finds the exercises of %s again', async (name) => {
    put(join(folder(), 'routines', name), 'exercises: {a-page: {title: A page}}\n');
    const { answer, read } = await keep([thing('a-page', 'A page')]);
    expect(answer.sentence).toMatch(/: kept as a routine/);
    const routine = read?.routines.find(({ id }) => id === 'band-days');
    expect(routine?.exercises.map(({ id }) => id)).toEqual(['a-page']);
    expect(read?.troubles).toEqual([]);
  });

  it('is not written where the file would have a mistake in it', async () => {
    const { answer, read } = await keep([thing('long-tones', 'Long tones')], 'Band\u202edays');
    expect(answer.sentence).toMatch(/^Not kept yet: 'routine' is /);
    expect(read).toBeNull();
    expect(fs.existsSync(join(folder(), 'routines'))).toBe(false);
  });
});

describe('an editor that saves in the very moment', () => {
  /** Saves the given texts, one before each time that our own file is about to take its place. */
  const saving = (path: string, saves: string[]) => ({
    ...fs,
    fsyncSync: (fd: number) => {
      const next = saves.shift();
      if (next !== undefined) fs.writeFileSync(path, next);
      fs.fsyncSync(fd);
    },
  });

  it('loses nothing, and neither does the screen', () => {
    const path = put(join(folder(), 'a.yaml'), 'one\n');
    const saves = ['one\ntwo\n', 'one\ntwo\nthree\n'];
    changeFile(path, (before) => `${before}mine\n`, saving(path, saves));
    expect(fs.readFileSync(path, 'utf8')).toBe('one\ntwo\nthree\nmine\n');
  });

  it('is heard where it made the file first', () => {
    const path = join(folder(), 'new.yaml');
    changeFile(path, (before) => `${before}mine\n`, saving(path, ['theirs\n']));
    expect(fs.readFileSync(path, 'utf8')).toBe('theirs\nmine\n');
    expect(fs.readdirSync(folder())).toEqual(['new.yaml']);
  });

  it('for ever is one sentence, and the file is the editor’s', () => {
    const path = put(join(folder(), 'a.yaml'), '0');
    const endless = Array.from({ length: 100 }, (_, k) => `${k + 1}`);
    expect(() => changeFile(path, (before) => `${before}!`, saving(path, endless))).toThrow(/all the time/);
    expect(fs.readFileSync(path, 'utf8')).toMatch(/^\d+$/);
  });
});

describe('a file that an editor changes while the program is open', () => {
  let stop = (): void => {};
  afterEach(() => stop());

  it('is read again', async () => {
    put(mine(), 'exercises: {page: {title: Page}}\n');
    const own = await open();
    const seen: string[] = [];
    stop = own.watch(({ exercises }) => void seen.push(exercises[0]?.title ?? ''));
    put(mine(), 'exercises: {page: {title: Another page}}\n');
    for (let k = 0; k < 100 && seen.length === 0; k += 1) await wait(100);
    expect(seen).toEqual(['Another page']);
  }, 15_000);
});

describe('a draft', () => {
  const draft = { fields: form('Half'), start: BLANK_FORM, of: { file: 'my-exercises', name: 'page' } };

  it('is there at the next start, and gone when it was kept', () => {
    const keeper = draftKeeper(folder(), () => {});
    keeper.keep({ ...draft, fields: form('Ha') });
    keeper.keep(draft);
    keeper.finish();
    expect(readDraft(folder())).toEqual(draft);
    const copy = { ...draft, of: null, copied: { file: 'cornet-daily', name: 'five-notes' } };
    keeper.keep(copy);
    keeper.finish();
    expect(readDraft(folder())).toEqual(copy);
    keeper.keep(null);
    keeper.finish();
    expect(readDraft(folder())).toBeNull();
  });

  it('is written by itself a little after the last letter', async () => {
    draftKeeper(folder(), () => {}).keep(draft);
    for (let k = 0; k < 100 && readDraft(folder()) === null; k += 1) await wait(20);
    expect(readDraft(folder())).toEqual(draft);
  });

  it.each(['', '{', '[]', '5', '{"fields": {"title": 5, "from": "60"}}'])('of %j is read as far as it goes', (kept) => {
    put(join(folder(), 'draft.json'), kept);
    const read = readDraft(folder());
    if (read) expect(Object.values(read.fields).every((value) => typeof value === 'string')).toBe(true);
    else expect(['', '{']).toContain(kept);
  });
});
