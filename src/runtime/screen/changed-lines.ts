/** Takes whole drawings and sends the terminal only the lines that have changed, each to its own place. */
import { type Theme, inColour } from '../../ui/theme.ts';
import { type PaintedLine, fit, widthOf } from '../../ui/paint.ts';

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

/** Cursor to the beginning of a row (CUP, ECMA-48 8.3.21); clear to the end of it (EL, 8.3.41). */
const place = (row: number): string => `\x1b[${row + 1};1H`;
const CLEAR_REST = '\x1b[K';
const CLEAR_ALL = '\x1b[2J';

/** A line as it is sent, and whether it ends at the terminal's last column. */
export interface SentLine {
  readonly text: string;
  readonly isFull: boolean;
}

const NOTHING: SentLine = { text: '', isFull: false };

/** The rest is cleared after the line is written, so that nothing flickers; a full line has none to clear. */
const written = (row: number, { text, isFull }: SentLine): string => place(row) + text + (isFull ? '' : CLEAR_REST);

/** What to send so that a terminal that shows `before` shows `after`; lines below the screen are left out. */
export function difference(before: readonly SentLine[], after: readonly SentLine[], rows: number): string {
  const height = Math.min(rows, Math.max(before.length, after.length));
  const changed: string[] = [];
  for (let row = 0; row < height; row += 1) {
    if (before[row]?.text !== after[row]?.text) changed.push(written(row, after[row] ?? NOTHING));
  }
  return changed.length === 0 ? '' : TOGETHER + changed.join('') + DONE;
}

/** Never wider than the terminal is now, whatever size it was drawn for. */
function sentLine(painted: PaintedLine, columns: number, theme: Theme): SentLine {
  const cut = widthOf(painted) > columns ? fit(painted, columns) : painted;
  const text = inColour(cut, theme);
  return { text, isFull: reachesEdge(cut, columns) };
}

/** Blanks at the end are not sent. */
function reachesEdge(painted: PaintedLine, columns: number): boolean {
  const text = painted.map((one) => one.text).join('');
  return widthOf(painted) >= columns && text === text.trimEnd();
}

export function createFrames(screen: Screen, theme: Theme): Frames {
  let shown: readonly SentLine[] = [];
  let last: readonly PaintedLine[] = [];
  let state: 'open' | 'held' | 'closed' = 'open';

  function send(): void {
    if (state !== 'open') return;
    const { columns, rows } = screen;
    const sent = last.slice(0, rows).map((painted) => sentLine(painted, columns, theme));
    const text = difference(shown, sent, rows);
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

  return {
    paint: (lines) => {
      last = lines;
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
