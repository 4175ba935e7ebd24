/**
 * One program on one data folder at a time. The lock names its process and when that process started, so
 * that a lock left behind by a crash, or one whose number now belongs to someone else, does not count.
 */
import { execFileSync } from 'node:child_process';
import { linkSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { hostname } from 'node:os';
import { reasonOf } from '../../common/file-reasons.ts';
import { Trouble } from '../../common/trouble.ts';
import { createFile } from '../../disk/whole-file.ts';

export interface Lock {
  /** Gives the folder free; safe to call twice. */
  readonly release: () => void;
}

export interface Holder {
  readonly pid: number;
  /** When the process started, in the platform's own words; null where it cannot be asked. */
  readonly started: string | null;
  readonly host: string;
}

/** When a process started, as Linux's /proc or any Unix's ps says it; null when nothing can tell. */
function startOf(pid: number): string | null {
  try {
    if (process.platform === 'linux') {
      const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
      const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
      // The 22nd field; the second is a name in brackets that may hold spaces.
      return `${boot} ${stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19]}`;
    }
    if (process.platform === 'win32') return null;
    return execFileSync('ps', ['-o', 'lstart=', '-p', String(pid)], { encoding: 'utf8', timeout: 2000 }).trim() || null;
  } catch {
    return null;
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** A laptop's full host name changes with the network it is on; its first word does not. */
const host = (): string => hostname().split('.')[0] ?? '';

const own = (): Holder => ({ pid: process.pid, started: startOf(process.pid), host: host() });

/** Whether the process that wrote a lock is still there; a lock from another machine cannot be judged and counts. */
export function isHeld(holder: Holder): boolean {
  if (holder.host !== host()) return true;
  if (!isRunning(holder.pid)) return false;
  return holder.started === null || holder.started === startOf(holder.pid);
}

/** Null for a file that is no lock, such as one cut off by a power failure. */
function parse(text: string): Holder | null {
  try {
    const { pid, started, host: where } = JSON.parse(text) as Partial<Holder>;
    if (!Number.isSafeInteger(pid) || Number(pid) <= 0 || typeof where !== 'string') return null;
    return { pid: Number(pid), started: typeof started === 'string' ? started : null, host: where };
  } catch {
    return null;
  }
}

function textOf(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

/** Takes a dead lock away. Two starts may do so at once: what was moved must be what was judged, or it goes back. */
function clear(path: string, judged: string): void {
  const aside = `${path}.${process.pid}.old`;
  try {
    renameSync(path, aside);
    if (textOf(aside) !== judged) linkSync(aside, path);
  } catch {
    // Someone else was faster; the next try sees it.
  } finally {
    rmSync(aside, { force: true });
  }
}

/** Makes the lock, whole or not at all; false where there is one. A power cut makes it void: no disk is waited for. */
function claim(path: string, text: string): boolean {
  try {
    createFile(path, text, { mode: 0o600, forced: false });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

const taken = (path: string, holder: Holder): Trouble =>
  new Trouble(
    holder.host === host()
      ? `standside is already running on this data (process ${holder.pid}); leave that one first, or name ` +
          `another folder with --data DIR.`
      : `standside is running on this data on the machine ${JSON.stringify(holder.host)}; if it is not, remove ` +
          `${path}.`,
  );

/**
 * Claims a data folder.
 * @param path of the lock file, see `DataFolder.lock`
 * @throws Trouble when another program holds it, or when the lock cannot be written.
 */
export function takeLock(path: string): Lock {
  const text = JSON.stringify(own());
  try {
    for (let tries = 0; tries < 5; tries += 1) {
      if (claim(path, text)) return { release: () => textOf(path) === text && rmSync(path, { force: true }) };
      const found = textOf(path);
      const holder = found === null ? null : parse(found);
      if (holder && isHeld(holder)) throw taken(path, holder);
      if (found !== null) clear(path, found);
    }
  } catch (error) {
    if (error instanceof Trouble) throw error;
    throw new Trouble(`The data folder cannot be used: ${reasonOf(error, 'write')} (${path}).`);
  }
  throw new Trouble(`Another standside is starting on this data at the same moment; try again (${path}).`);
}
