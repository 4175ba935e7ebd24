/**
 * Between Ink and the terminal: takes whole frames and sends only the lines that have changed, each to its own
 * place. Ink's own incremental output scrolls by a line in the alternate screen, and its plain output erases
 * what it is about to write again.
 */
import { EventEmitter } from 'node:events';

/** The part of a terminal that is written to. */
export interface Screen {
  readonly columns: number;
  readonly rows: number;
  write(text: string): void;
  on(event: 'resize', listener: () => void): void;
  off(event: 'resize', listener: () => void): void;
}

export interface Frames {
  /** To be given to Ink as its stdout, with `debug` set: then every write is a whole frame. */
  readonly stdout: NodeJS.WriteStream;
  /** The next frame is sent whole: somebody else has written on the terminal. */
  forget(): void;
  /** Nothing is sent until `repeat`: the terminal is someone else's for a while. */
  hold(): void;
  /** Sends the last frame again, whole. */
  repeat(): void;
  /** From now on nothing is sent. */
  close(): void;
}

/** Terminals that know these draw what lies between in one go; the others ignore them. */
const TOGETHER = '\x1b[?2026h';
const DONE = '\x1b[?2026l';

const place = (row: number): string => `\x1b[${row + 1};1H\x1b[2K`;

/** What to send so that a terminal that shows `before` shows `after`; lines below the screen are left out. */
export function difference(before: readonly string[], after: readonly string[], rows: number): string {
  const height = Math.min(rows, Math.max(before.length, after.length));
  const changed: string[] = [];
  for (let row = 0; row < height; row += 1) {
    if (before[row] !== after[row]) changed.push(place(row) + (after[row] ?? ''));
  }
  return changed.length === 0 ? '' : TOGETHER + changed.join('') + DONE;
}

export function createFrames(screen: Screen): Frames {
  let shown: readonly string[] = [];
  let last: readonly string[] = [];
  let open = true;
  let held = false;

  function send(): void {
    if (held) return;
    const text = difference(shown, last, screen.rows);
    if (text) screen.write(text);
    shown = last;
  }

  const stdout = Object.assign(new EventEmitter(), {
    isTTY: true,
    write: (frame: string, done?: () => void): boolean => {
      if (open && frame !== '') {
        last = frame.split('\n');
        send();
      }
      done?.();
      return true;
    },
  });
  Object.defineProperties(stdout, {
    columns: { get: () => screen.columns },
    rows: { get: () => screen.rows },
  });

  const forget = (): void => {
    shown = [];
  };
  const onResize = (): void => {
    forget();
    if (!held) screen.write('\x1b[2J');
    stdout.emit('resize');
  };
  screen.on('resize', onResize);

  return {
    // Ink asks a stream for no more than this.
    stdout: stdout as unknown as NodeJS.WriteStream,
    forget,
    hold: () => {
      held = true;
    },
    repeat: () => {
      held = false;
      forget();
      send();
    },
    close: () => {
      open = false;
      screen.off('resize', onResize);
    },
  };
}
