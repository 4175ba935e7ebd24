import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { takeLock } from '../../src/runtime/files/folder-lock.ts';
import type { Machine } from '../../src/runtime/running-processes.ts';
import { eachInOwnFolder } from './folder.ts';
import { said } from './said.ts';

const folder = eachInOwnFolder();
const path = () => join(folder(), 'standside.lock');
const holder = () => JSON.parse(readFileSync(path(), 'utf8')) as Record<string, unknown>;

/** Another process that lives until it is killed. */
const other = (): ChildProcess => spawn(process.execPath, ['-e', 'setInterval(() => {}, 1e6)'], { stdio: 'ignore' });

async function killed(child: ChildProcess): Promise<void> {
  const gone = once(child, 'exit');
  child.kill('SIGKILL');
  await gone;
}

/** A machine on which the process 7 is this one, and others live or not as is said. */
const machine = (living: (pid: number) => boolean = () => true): Machine => ({
  host: 'here',
  pid: 7,
  isRunning: living,
  startOf: (pid) => (pid === 99 ? null : `at ${pid}`),
});

const lockOf = (pid: number, more: Readonly<Record<string, unknown>> = {}): string =>
  JSON.stringify({ pid, started: `at ${pid}`, host: 'here', ...more });

describe('the lock of a data folder', () => {
  it('lets one in, and the next after it was released', () => {
    const lock = takeLock(path());
    expect(said(() => takeLock(path()))).toBe(
      `standside is already running on this data (process ${process.pid}); leave that one first, or name another ` +
        `folder with --data DIR.`,
    );
    lock.release();
    lock.release();
    expect(existsSync(path())).toBe(false);
    takeLock(path()).release();
    expect(readdirSync(folder())).toEqual([]);
  });

  it('is held by a living process, and free once that was killed', async () => {
    const child = other();
    takeLock(path());
    writeFileSync(path(), JSON.stringify({ ...holder(), pid: child.pid, started: null }));
    expect(() => takeLock(path())).toThrow(`process ${child.pid}`);
    await killed(child);
    takeLock(path()).release();
  });

  it.runIf(process.platform !== 'win32')(
    'does not take another process that now has the number for its holder',
    async () => {
      const child = other();
      takeLock(path());
      writeFileSync(path(), JSON.stringify({ ...holder(), pid: child.pid, started: 'long ago' }));
      takeLock(path()).release();
      await killed(child);
    },
  );

  it.each(['', '{', 'null', '3', '{"pid":"x"}', '{"pid":-1,"host":"a"}', '{"pid":0,"host":"here"}', '{"pid":1}'])(
    'does not mind a lock cut off to %j',
    (text) => {
      writeFileSync(path(), text);
      takeLock(path(), machine()).release();
      expect(readdirSync(folder())).toEqual([]);
    },
  );

  it('leaves the lock of another machine alone, and says which file to remove', () => {
    writeFileSync(path(), JSON.stringify({ pid: 1, started: null, host: 'attic' }));
    expect(() => takeLock(path())).toThrow(`"attic"; if it is not, remove ${path()}`);
    expect(holder()['host']).toBe('attic');
  });

  it('shows the name of another machine harmlessly', () => {
    writeFileSync(path(), JSON.stringify({ pid: 1, started: null, host: 'attic\u009b2J' }));
    expect(() => takeLock(path())).toThrow('on the machine "attic\\u009b2J"; if');
  });

  it('names its process, its start and its machine, for the player alone', () => {
    takeLock(path(), machine());
    expect(readFileSync(path(), 'utf8')).toBe(lockOf(7));
    expect(statSync(path()).mode & 0o077).toBe(0);
  });

  it.each([
    ['of a process that has ended', lockOf(8), () => false, null],
    [
      'of a process that lives',
      lockOf(8),
      () => true,
      'already running on this data (process 8); leave that one first',
    ],
    ['of a number that is another’s now', lockOf(8, { started: 'at 1' }), () => true, null],
    ['of a process that could not be asked', lockOf(8, { started: null }), () => true, 'process 8'],
    ['of a start that is no text', lockOf(8, { started: 5 }), () => true, 'process 8'],
    ['of a process that cannot be asked any more', lockOf(99), () => true, null],
    ['of another machine, whatever runs here', lockOf(8, { host: 'attic' }), () => false, '"attic"; if it is not'],
  ])('%s counts, or does not', (_, text, living, trouble) => {
    writeFileSync(path(), text);
    if (trouble !== null) {
      expect(said(() => takeLock(path(), machine(living)))).toContain(trouble);
      expect(readFileSync(path(), 'utf8')).toBe(text);
    } else {
      takeLock(path(), machine(living));
      expect(readFileSync(path(), 'utf8')).toBe(lockOf(7));
    }
    expect(readdirSync(folder())).toEqual(['standside.lock']);
  });

  it('puts back the lock of another start that came between', () => {
    writeFileSync(path(), lockOf(8));
    const living = (pid: number): boolean => {
      writeFileSync(path(), lockOf(9));
      return pid === 9;
    };
    expect(() => takeLock(path(), machine(living))).toThrow('(process 9)');
    expect(readFileSync(path(), 'utf8')).toBe(lockOf(9));
    expect(readdirSync(folder())).toEqual(['standside.lock']);
  });

  it('is not kept waiting by a dead lock that another start took away first', () => {
    writeFileSync(path(), lockOf(8));
    takeLock(
      path(),
      machine(() => {
        rmSync(path());
        return false;
      }),
    );
    expect(readFileSync(path(), 'utf8')).toBe(lockOf(7));
    expect(readdirSync(folder())).toEqual(['standside.lock']);
  });

  it('gives up after the fifth start that comes between', () => {
    let starts = 0;
    writeFileSync(path(), lockOf(8));
    const living = (): boolean => {
      starts += 1;
      writeFileSync(path(), lockOf(10 + starts));
      return false;
    };
    expect(said(() => takeLock(path(), machine(living)))).toBe(
      `Another standside is starting on this data at the same moment; try again (${path()}).`,
    );
    expect(starts).toBe(5);
    expect(readFileSync(path(), 'utf8')).toBe(lockOf(15));
  });

  it('says in one sentence that it cannot be written or read', () => {
    const nowhere = join(folder(), 'none', 'lock');
    expect(said(() => takeLock(nowhere))).toBe(`The data folder cannot be used: its path leads nowhere (${nowhere}).`);
    mkdirSync(path());
    expect(() => takeLock(path())).toThrow(`The data folder cannot be used: it is a folder (${path()}).`);
    expect(readdirSync(folder())).toEqual(['standside.lock']);
  });

  it('may be gone already when it is released', () => {
    const lock = takeLock(path());
    rmSync(path());
    lock.release();
    expect(readdirSync(folder())).toEqual([]);
  });

  it('does not release what someone else has taken since', () => {
    const lock = takeLock(path());
    writeFileSync(path(), JSON.stringify({ pid: 1, started: null, host: 'attic' }));
    lock.release();
    expect(holder()['host']).toBe('attic');
  });
});
