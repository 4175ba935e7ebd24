/** Which processes run on this machine, and since when: a process's number alone may be another's tomorrow. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';

/** A test hands in a machine of its own. */
export interface Machine {
  readonly host: string;
  /** The number of this process. */
  readonly pid: number;
  readonly isRunning: (pid: number) => boolean;
  /** When a process started, in the platform's own words; null where that cannot be asked. */
  readonly startOf: (pid: number) => string | null;
}

/** A laptop's full name changes with the network it is on; its first word does not. */
export const hostOf = (name: string): string => name.replace(/\..*/s, '');

/** Signal 0 is none at all; it is refused where there is no such process, or where it is someone else's. */
function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/**
 * The start in clock ticks since the machine's own start: field 22 of `/proc/PID/stat` (proc(5)). The second field is
 * a name in brackets that may hold spaces and brackets.
 */
export const ticksOf = (stat: string): string | undefined => stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19];

const textOf = (path: string): string => readFileSync(path, 'utf8').trim();

/** Ticks alone would count anew after each start of the machine. */
const onLinux = (pid: number): string =>
  `${textOf('/proc/sys/kernel/random/boot_id')} ${ticksOf(textOf(`/proc/${pid}/stat`))}`;

/** As POSIX `ps` says it. */
const onUnix = (pid: number): string | null =>
  execFileSync('ps', ['-o', 'lstart=', '-p', String(pid)], { encoding: 'utf8', timeout: 2000 }).trim() || null;

const nowhere = (): null => null;

/** How a platform says when a process started; Windows has no short way. */
export function startAsker(platform: NodeJS.Platform): Machine['startOf'] {
  const ask = platform === 'linux' ? onLinux : platform === 'win32' ? nowhere : onUnix;
  return (pid) => {
    try {
      return ask(pid);
    } catch {
      return null;
    }
  };
}

export const thisMachine = (): Machine => ({
  host: hostOf(hostname()),
  pid: process.pid,
  isRunning,
  startOf: startAsker(process.platform),
});
