/** Takes whole drawings and sends the terminal only the lines that have changed, each to its own place. */
import type { PaintedLine } from '../../ui/paint.ts';
import type { Theme } from '../../ui/theme.ts';
import { paintedLines } from './ink-lines.ts';
import { NOTHING, type SentLine, changeOf, sentLine } from './changed-cells.ts';

/** The part of a terminal that is written to. */
export interface Screen {
  readonly rows: number;
  readonly columns: number;
  write(text: string): void;
  on(event: 'resize', listener: () => void): void;
  off(event: 'resize', listener: () => void): void;
}

export interface Frames {
  paint(lines: readonly PaintedLine[]): void;
  /** What Ink wrote of a form; nothing where it has none to write. */
  written(text: string): void;
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

const CLEAR_ALL = '\x1b[2J';

/** What to send so that a terminal that shows `before` shows `after`; lines below the screen are left out. */
function difference(before: readonly SentLine[], after: readonly SentLine[], rows: number, theme: Theme): string {
  const height = Math.min(rows, Math.max(before.length, after.length));
  const changed: string[] = [];
  for (let row = 0; row < height; row += 1) changed.push(changeOf(row, before[row], after[row] ?? NOTHING, theme));
  const text = changed.join('');
  return text === '' ? '' : TOGETHER + text + DONE;
}

export function createFrames(screen: Screen, theme: Theme): Frames {
  let shown: readonly SentLine[] = [];
  let last: readonly PaintedLine[] = [];
  let state: 'open' | 'held' | 'closed' = 'open';

  function send(): void {
    if (state !== 'open') return;
    const { columns, rows } = screen;
    const sent = last.slice(0, rows).map((painted) => sentLine(painted, columns));
    const text = difference(shown, sent, rows, theme);
    if (text) screen.write(text);
    shown = sent;
  }

  /** A terminal that changes its size may keep parts of the old picture: all of it goes, and is drawn anew. */
  const onResize = (): void => {
    shown = [];
    if (state === 'open') screen.write(CLEAR_ALL);
    send();
  };
  screen.on('resize', onResize);

  const paint = (lines: readonly PaintedLine[]): void => {
    last = lines;
    send();
  };

  return {
    paint,
    written: (text) => {
      const lines = paintedLines(text);
      if (lines) paint(lines);
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
