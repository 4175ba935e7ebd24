/** The thread to one child process. A child that ends for any reason is told once. */
import { type ChildProcess, fork } from 'node:child_process';
import { closeSync, existsSync, openSync, statSync } from 'node:fs';
import type { DeviceSettings, FromChild, ToChild } from './protocol.ts';
import { childEntry } from '../package-folder.ts';

export interface Link {
  send(message: ToChild): void;
  /** Ends the child at once; nothing is told of it. */
  kill(): void;
}

/** Starts a child; both callbacks may be called until `kill`. */
export type Connect = (settings: DeviceSettings, heard: (message: FromChild) => void, ended: () => void) => Link;

/** A machine without a device would fill the disk with the library's complaints. */
const LARGEST_LOG = 1_000_000;
const isFull = (path: string): boolean => (statSync(path, { throwIfNoEntry: false })?.size ?? 0) > LARGEST_LOG;

/** A log that cannot be written must not cost the sound. */
function openLog(path: string | null): number | 'ignore' {
  try {
    return path === null || isFull(path) ? 'ignore' : openSync(path, 'a');
  } catch {
    return 'ignore';
  }
}

function start(settings: DeviceSettings, logFile: string | null): ChildProcess {
  // The native libraries print to both outputs: they go to the log, messages have their own channel.
  const log = openLog(logFile);
  try {
    return fork(childEntry(), [JSON.stringify(settings)], {
      stdio: ['ignore', log, log, 'ipc'],
      serialization: 'advanced',
      execArgv: [],
    });
  } finally {
    if (typeof log === 'number') closeSync(log);
  }
}

/** A link to no process: where the program was not built. */
function deadLink(ended: () => void): Link {
  const timer = setTimeout(ended, 0);
  return { send: () => {}, kill: () => clearTimeout(timer) };
}

/** Ends a process so that neither it nor its channel keeps this one alive. */
function killProcess(child: ChildProcess): void {
  child.kill('SIGKILL');
  child.unref();
  child.channel?.unref();
}

function linkTo(child: ChildProcess, heard: (message: FromChild) => void, ended: () => void): Link {
  let open = true;
  const end = (): void => {
    if (open) ended();
    open = false;
  };
  child.on('message', (message) => open && heard(message as FromChild));
  child.on('exit', end).on('error', end);
  return {
    send(message) {
      if (open && child.connected) child.send(message, () => {});
    },
    kill() {
      open = false;
      killProcess(child);
    },
  };
}

/** Children that are real processes and print to a log file, or to nowhere. */
export const forkedChild =
  (logFile: string | null): Connect =>
  (settings, heard, ended) =>
    existsSync(childEntry()) ? linkTo(start(settings, logFile), heard, ended) : deadLink(ended);
