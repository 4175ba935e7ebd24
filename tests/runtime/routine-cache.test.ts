import { readFileSync, readdirSync, rmSync, statSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { routinesOf } from '../../src/runtime/files/routine-cache.ts';
import type { LoadedRoutines } from '../../src/runtime/files/routine-finder.ts';
import { eachInOwnFolder } from './folder.ts';
import { dayText, put } from './routines.ts';

const folder = eachInOwnFolder();
const own = (name = 'mine.yaml'): string => join(folder(), 'routines', name);
const cache = (): string => join(folder(), 'routines-read.json');

/** The titles of the player's own. */
const titles = async (): Promise<readonly string[]> =>
  (await routinesOf(folder())).routines
    .filter(({ path }) => path.startsWith(folder()))
    .map(({ routine }) => routine.title);

const troubles = async (): Promise<number> => (await routinesOf(folder())).troubles.length;

interface Kept {
  readonly stamp: string;
  readonly loaded: LoadedRoutines;
}

const kept = (): Kept => JSON.parse(readFileSync(cache(), 'utf8')) as Kept;

/** Puts a mark into what the cache holds, so that a test sees where the routines came from. */
function mark(change: (kept: Kept) => unknown = (all) => all): void {
  const text = JSON.stringify(change(kept())).replaceAll('"One"', '"From the cache"');
  writeFileSync(cache(), text);
}

describe('the routines as they were read last time', () => {
  it('are read once, and then come from the cache', async () => {
    put(own(), dayText('One'));
    const read = await routinesOf(folder());
    expect(await routinesOf(folder())).toEqual(read);
    mark();
    expect(await titles()).toEqual(['From the cache']);
    expect(readdirSync(folder()).toSorted()).toEqual(['last-sound', 'routines', 'routines-read.json']);
  });

  it.each([
    ['changed in length', () => put(own(), `${dayText('One')}\n`)],
    ['changed in time', () => utimesSync(own(), new Date(), new Date(Date.now() + 60_000))],
    ['came', () => put(own('other.yaml'), dayText('Two'))],
    ['got another name', () => (rmSync(own()), put(own('a.yaml'), dayText('One')))],
  ])('do not count when a file %s', async (_, change) => {
    put(own(), dayText('One'));
    await titles();
    mark();
    change();
    expect(await titles()).toContain('One');
    expect(await titles()).not.toContain('From the cache');
    mark();
    expect(await titles()).toContain('From the cache');
  });

  it('do not count when a file went', async () => {
    put(own('a.yaml'), dayText('One'));
    put(own('b.yaml'), dayText('Two'));
    await titles();
    rmSync(own('b.yaml'));
    expect(await titles()).toEqual(['One']);
  });

  it('do not count for another program, nor with parts missing', async () => {
    put(own(), dayText('One'));
    await titles();
    const source = new URL('../../src/runtime/files/routine-cache.ts', import.meta.url).pathname;
    const { mtimeMs, size } = statSync(source);
    expect(kept().stamp.split('\n')[0]).toBe(`${source} ${mtimeMs} ${size}`);
    for (const change of [
      ({ stamp, loaded }: Kept) => ({ stamp: stamp.replace(String(size), '1'), loaded }),
      ({ stamp }: Kept) => ({ stamp }),
      ({ loaded }: Kept) => ({ loaded }),
      () => null,
    ]) {
      mark(change);
      expect(await titles()).toEqual(['One']);
    }
  });

  it('are read anew when the cache is broken, and stay readable without one', async () => {
    put(own(), dayText('One'));
    writeFileSync(cache(), '{"stamp": 3');
    expect(await titles()).toEqual(['One']);
    expect(kept().loaded.routines.length).toBeGreaterThan(0);
    expect((await routinesOf(join(folder(), 'nowhere'))).routines.length).toBeGreaterThan(0);
  });

  it('do not count while a file cannot be found behind its name, and count again after', async () => {
    put(own(), dayText('One'));
    await titles();
    symlinkSync('gone.yaml', own('link.yaml'));
    const read = await routinesOf(folder());
    expect(read.troubles.map(({ sentence }) => sentence)).toEqual(['there is no such file.']);
    expect(kept().stamp).toContain(`${own('link.yaml')} -`);
  });

  it('are looked at for sounds each time', async () => {
    put(own(), `routine: One\nexercises: {a: {click: {voice: my.wav}}}\nparts: [{part: A, blocks: [a: 5]}]\n`);
    expect(await troubles()).toBe(1);
    expect(await troubles()).toBe(1);
    expect(kept().loaded.troubles).toEqual([]);
  });
});
