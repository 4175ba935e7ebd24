import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { handClock } from '../../src/runtime/clock.ts';
import { dataFolderAt, openDataFolder, whereData } from '../../src/runtime/files/data-folder.ts';
import { openLog } from '../../src/runtime/files/log-file.ts';
import { openPlayerData } from '../../src/runtime/files/player-data.ts';
import { Trouble } from '../../src/common/trouble.ts';
import { eachInOwnFolder } from './folder.ts';

const folder = eachInOwnFolder();

describe('the data folder', () => {
  it('is the one asked for, then the environment, then the platform', () => {
    expect(whereData('/a', { STANDSIDE_DATA: '/b' })).toBe('/a');
    expect(whereData(undefined, { STANDSIDE_DATA: '/b' })).toBe('/b');
    expect(whereData(undefined, {})).toMatch(/standside/);
  });

  it('is called after the program and nothing else on the platform', () => {
    expect(whereData(undefined, {}).split(/[/\\]/)).toContain('standside');
    expect(whereData('', { STANDSIDE_DATA: '' })).toBe(whereData(undefined, {}));
    expect(whereData('here', {})).toBe(join(process.cwd(), 'here'));
  });

  it('has a place for each file', () => {
    expect(dataFolderAt('/a')).toEqual({
      path: '/a',
      journal: join('/a', 'journal.jsonl'),
      cache: join('/a', 'cache.json'),
      lock: join('/a', 'standside.lock'),
      log: join('/a', 'standside.log'),
      routines: join('/a', 'routines'),
    });
  });

  it('is made when it is missing, for the player alone', () => {
    const { path } = openDataFolder(join(folder(), 'new', 'deep'));
    expect(statSync(path).mode & 0o077).toBe(0);
  });

  it('says in one sentence that it cannot be used', () => {
    writeFileSync(join(folder(), 'file'), '');
    expect(() => openDataFolder(join(folder(), 'file'))).toThrow(Trouble);
    expect(() => openDataFolder(join(folder(), 'file', 'deep'))).toThrow(
      /cannot be used: there is a file in its way\. Name another with --data DIR or STANDSIDE_DATA\.$/,
    );
  });
});

describe('the log', () => {
  it('writes who said what, harmlessly, and keeps one full file', () => {
    const path = join(folder(), 'log');
    const log = openLog(path, handClock('2026-11-25T18:04:09Z', 60), 100);
    log.write('sound', 'ALSA \u001b[2J\n');
    expect(readFileSync(path, 'utf8')).toBe('2026-11-25T19:04:09.000+01:00 sound: ALSA \\x1b[2J\n');
    for (let line = 0; line < 10; line += 1) log.write('sound', `line ${line}`);
    expect(statSync(path).size).toBeLessThan(200);
    expect(statSync(`${path}.1`).size).toBeLessThan(200);
  });

  it('keeps a file that is one byte short of full, and is the player’s alone', () => {
    const path = join(folder(), 'log');
    const log = openLog(path, handClock('2026-11-25T18:04:09Z'), 50);
    log.write('a', '\u0001');
    expect(readFileSync(path, 'utf8')).toMatch(/ a: \\x01\n$/);
    expect(statSync(path).mode & 0o077).toBe(0);
    writeFileSync(path, 'x'.repeat(49));
    log.write('a', 'b');
    expect(existsSync(`${path}.1`)).toBe(false);
    writeFileSync(path, 'x'.repeat(50));
    log.write('a', 'b');
    expect(readFileSync(`${path}.1`, 'utf8')).toBe('x'.repeat(50));
  });

  it('does not stop anyone when it cannot be written', () => {
    openLog(join(folder(), 'no', 'such', 'place')).write('sound', 'x');
    expect(existsSync(join(folder(), 'no'))).toBe(false);
  });
});

describe('the player’s data', () => {
  const line = { exercise: 'five-notes', articulation: 'single', key: 'Bb' };

  it('are held by one program, keep what happened, and are free again after closing', () => {
    const data = openPlayerData(folder(), handClock('2026-11-25T23:30:00Z', 60));
    expect(() => openPlayerData(folder())).toThrow(/already running/);
    const entry = data.stamp({ kind: 'tempo', ...line, next: 91 });
    expect(entry).toMatchObject({ v: 1, at: '2026-11-26T00:30:00.000+01:00', day: '2026-11-25', next: 91 });
    expect(data.store.append(entry)).toEqual({ line: 'five-notes · single · Bb' });
    expect(existsSync(data.folder.cache)).toBe(false);
    data.close();
    expect(existsSync(data.folder.cache)).toBe(true);
    data.close();
    const again = openPlayerData(folder());
    expect([...again.store.fold().lines.values()]).toMatchObject([{ line, bpm: 91 }]);
    again.close();
  });

  it('give the lock back when the journal cannot be opened', () => {
    const path = join(folder(), 'data');
    openDataFolder(join(path, 'journal.jsonl'));
    expect(() => openPlayerData(path)).toThrow(/journal\.jsonl cannot be opened for writing: it is a folder/);
    expect(existsSync(join(path, 'standside.lock'))).toBe(false);
  });
});
