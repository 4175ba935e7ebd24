import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { takeLock } from '../../src/runtime/files/folder-lock.ts';
import { eachInOwnFolder } from './folder.ts';

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

describe('the lock of a data folder', () => {
  it('lets one in, and the next after it was released', () => {
    const lock = takeLock(path());
    expect(() => takeLock(path())).toThrow(/already running on this data \(process \d+\)/);
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

  it.each(['', '{', '{"pid":"x"}', '{"pid":-1,"host":"a"}'])('does not mind a lock cut off to %j', (text) => {
    writeFileSync(path(), text);
    takeLock(path()).release();
  });

  it('leaves the lock of another machine alone, and says which file to remove', () => {
    writeFileSync(path(), JSON.stringify({ pid: 1, started: null, host: 'attic' }));
    expect(() => takeLock(path())).toThrow(`"attic"; if it is not, remove ${path()}`);
    expect(holder()['host']).toBe('attic');
  });

  it('does not release what someone else has taken since', () => {
    const lock = takeLock(path());
    writeFileSync(path(), JSON.stringify({ pid: 1, started: null, host: 'attic' }));
    lock.release();
    expect(holder()['host']).toBe('attic');
  });
});
