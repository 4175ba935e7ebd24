/** Takes whole drawings and sends the terminal only the lines that have changed, each to its own place. */
import type { PaintedLine } from '../../ui/paint.ts';
import { type Theme, inColour } from '../../ui/theme.ts';

/** The part of a terminal that is written to. */
export interface Screen {
  readonly rows: number;
  write(text: string): void;
  on(event: 'resize', listener: () => void): void;
  off(event: 'resize', listener: () => void): void;
}

export interface Frames {
  paint(lines: readonly PaintedLine[]): void;
  /** Nothing is sent until `repeat`: the screen is somebody else's. */
  hold(): void;
  /** Sends the last drawing again, whole. */
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

export function createFrames(screen: Screen, theme: Theme): Frames {
  let shown: readonly string[] = [];
  let last: readonly string[] = [];
  let state: 'open' | 'held' | 'closed' = 'open';

  function send(): void {
    if (state !== 'open') return;
    const text = difference(shown, last, screen.rows);
    if (text) screen.write(text);
    shown = last;
  }

  /** A terminal that changes its size may keep parts of the old picture. */
  const onResize = (): void => {
    shown = [];
    if (state === 'open') screen.write('\x1b[2J');
    send();
  };
  screen.on('resize', onResize);

  return {
    paint: (lines) => {
      last = lines.map((painted) => inColour(painted, theme));
      send();
    },
    hold: () => {
      if (state === 'open') state = 'held';
    },
    repeat: () => {
      if (state === 'held') state = 'open';
      shown = [];
      send();
    },
    close: () => {
      state = 'closed';
      screen.off('resize', onResize);
    },
  };
}
