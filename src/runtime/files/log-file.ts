/** A log file that never grows without end and never stops the program. */
import { appendFileSync, renameSync, statSync } from 'node:fs';
import { type Clock, atOf, systemClock } from '../clock.ts';

export interface Log {
  readonly path: string;
  /** One line: when, who, what. Line breaks and control characters in `text` are written out as escapes. */
  readonly write: (who: string, text: string) => void;
}

export const LOG_BYTES = 1_000_000;

const escaped = (text: string): string =>
  // oxlint-disable-next-line no-control-regex -- they are what must not reach a terminal through the log
  text.replace(/[\u0000-\u001f\u007f-\u009f]/g, (c) => `\\x${c.charCodeAt(0).toString(16).padStart(2, '0')}`);

const sizeOf = (path: string): number => statSync(path, { throwIfNoEntry: false })?.size ?? 0;

/**
 * When the file is full it becomes PATH.1, and the PATH.1 before it is gone. A log that cannot be written is not
 * written.
 */
export function openLog(path: string, clock: Clock = systemClock, maxBytes = LOG_BYTES): Log {
  const write = (who: string, text: string): void => {
    try {
      if (sizeOf(path) >= maxBytes) renameSync(path, `${path}.1`);
      const wall = clock.wall();
      appendFileSync(path, `${atOf(wall, clock.offsetAt(wall))} ${who}: ${escaped(text.trimEnd())}\n`, { mode: 0o600 });
    } catch {
      // Practice goes on without a log.
    }
  };
  return { path, write };
}
