/**
 * One program on one data folder at a time. The lock names its process and when that process started, so
 * that a lock left behind by a crash, or one whose number now belongs to someone else, does not count.
 */
import { readFileSync, renameSync, rmSync } from 'node:fs';
import { reasonOf } from '../../common/file-reasons.ts';
import { harmless } from '../../common/harmless-text.ts';
import { Trouble } from '../../common/trouble.ts';
import { createFile } from '../../disk/whole-file.ts';
import { type Machine, thisMachine } from '../running-processes.ts';

export interface Lock {
  /** Gives the folder free; safe to call twice. */
  readonly release: () => void;
}

interface Holder {
  readonly pid: number;
  /** See `Machine.startOf`. */
  readonly started: string | null;
  readonly host: string;
}

const holderOn = ({ pid, host, startOf }: Machine): Holder => ({ pid, started: startOf(pid), host });

/** Whether the process that wrote a lock is still there; a lock from another machine cannot be judged and counts. */
function isHeld({ host, pid, started }: Holder, machine: Machine): boolean {
  if (host !== machine.host) return true;
  return machine.isRunning(pid) && (started === null || started === machine.startOf(pid));
}

/** Null for a file that is no lock, such as one cut off by a power failure. */
function parse(text: string): Holder | null {
  try {
    const { pid, started, host } = JSON.parse(text) as Partial<Holder>;
    if (!Number.isSafeInteger(pid) || Number(pid) <= 0 || typeof host !== 'string') return null;
    return { pid: Number(pid), started: typeof started === 'string' ? started : null, host };
  } catch {
    return null;
  }
}

/** Empty where there is no such file (any more). */
function textOf(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return '';
    throw error;
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

/** Takes a dead lock away. Two starts may do so at once: what was moved must be what was judged, or it goes back. */
function clear(path: string, judged: string): void {
  const aside = `${path}.${process.pid}.old`;
  try {
    renameSync(path, aside);
    const moved = textOf(aside);
    if (moved !== judged) claim(path, moved);
  } catch {
    // Someone else was faster; the next try sees it.
  } finally {
    rmSync(aside, { force: true });
  }
}

const taken = (path: string, { host, pid }: Holder, machine: Machine): Trouble =>
  new Trouble(
    host === machine.host
      ? `standside is already running on this data (process ${pid}); leave that one first, or name another folder ` +
          `with --data DIR.`
      : `standside is running on this data on the machine "${harmless(host)}"; if it is not, remove ${path}.`,
  );

const busy = (path: string): Trouble =>
  new Trouble(`Another standside is starting on this data at the same moment; try again (${path}).`);

/** So often another start may come between before this one gives up. */
const TRIES = 5;

function tryToTake(path: string, text: string, machine: Machine): boolean {
  for (let tries = 0; tries < TRIES; tries += 1) {
    if (claim(path, text)) return true;
    const found = textOf(path);
    const holder = parse(found);
    if (holder && isHeld(holder, machine)) throw taken(path, holder, machine);
    clear(path, found);
  }
  return false;
}

/**
 * Claims a data folder.
 * @param path of the lock file, see `DataFolder.lock`
 * @throws Trouble when another program holds it, or when the lock cannot be written.
 */
export function takeLock(path: string, machine: Machine = thisMachine()): Lock {
  const text = JSON.stringify(holderOn(machine));
  try {
    if (!tryToTake(path, text, machine)) throw busy(path);
  } catch (error) {
    // Trouble has no code of the system's and goes on as it is.
    throw new Trouble(`The data folder cannot be used: ${reasonOf(error, 'write')} (${path}).`);
  }
  return { release: () => void (textOf(path) === text && rmSync(path, { force: true })) };
}
