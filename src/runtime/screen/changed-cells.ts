/** One line of the terminal: what of it has changed, and what to send for that. */
import { withSign } from '../../common/harmless-text.ts';
import { type PaintedLine, type Segment, type Tone, fit, line, seg, widthOf } from '../../ui/paint.ts';
import { columnsOf, isEven } from '../../ui/text-width.ts';
import { type Theme, inColour } from '../../ui/theme.ts';

interface Cell {
  readonly sign: string;
  readonly tone: Tone;
}

/** A line as it was sent: its cells up to the last that is not blank. */
export interface SentLine {
  readonly cells: readonly Cell[];
  /** Every cell takes one column: the n-th stands in column n, on whatever terminal. */
  readonly isEven: boolean;
  /** It ends at the terminal's last column. */
  readonly isFull: boolean;
}

export const NOTHING: SentLine = { cells: [], isEven: true, isFull: false };

/** Cursor to a row and column (CUP, ECMA-48 8.3.21); clear to the end of the row (EL, 8.3.41). */
const place = (row: number, column: number): string => `\x1b[${row + 1};${column + 1}H`;
const CLEAR_REST = '\x1b[K';

/** The wall behind `paint`'s own: no text reaches a terminal as a command. A blank is the same in every tone. */
const cellsIn = ({ text, tone }: Segment): readonly Cell[] =>
  Array.from(withSign(text, '\ufffd'), (sign) => ({ sign, tone: sign === ' ' ? 'plain' : tone }));

/** Never wider than the terminal is now, whatever size it was drawn for. */
export function sentLine(painted: PaintedLine, columns: number): SentLine {
  const cut = widthOf(painted) > columns ? fit(painted, columns) : painted;
  const all = cut.flatMap(cellsIn);
  const cells = all.slice(0, all.findLastIndex(({ sign }) => sign !== ' ') + 1);
  const text = cells.map(({ sign }) => sign).join('');
  return { cells, isEven: isEven(text), isFull: columnsOf(text) >= columns };
}

const isSame = (one: Cell | undefined, other: Cell | undefined): boolean =>
  one?.sign === other?.sign && one?.tone === other?.tone;

/** Neighbours of one tone in one go. */
function styled(cells: readonly Cell[], theme: Theme): string {
  const segments: Segment[] = [];
  for (const { sign, tone } of cells) {
    const last = segments.at(-1);
    if (last && (last.tone === tone || sign === ' ')) segments[segments.length - 1] = seg(last.text + sign, last.tone);
    else segments.push(seg(sign, tone));
  }
  return inColour(line(...segments), theme);
}

/** The rest is cleared after the line is written, so that nothing flickers; a full line has none to clear. */
const whole = (row: number, { cells, isFull }: SentLine, theme: Theme): string =>
  place(row, 0) + styled(cells, theme) + (isFull ? '' : CLEAR_REST);

/** From the first cell that differs to the last; the line that became shorter is cleared behind its end. */
function part(row: number, { cells: was }: SentLine, { cells: is }: SentLine, theme: Theme): string {
  const from = is.findIndex((cell, k) => !isSame(cell, was[k]));
  const start = from < 0 ? is.length : from;
  const end = was.length === is.length ? is.findLastIndex((cell, k) => !isSame(cell, was[k])) + 1 : is.length;
  return place(row, start) + styled(is.slice(start, end), theme) + (was.length > is.length ? CLEAR_REST : '');
}

/** What to send for a line; empty where nothing has changed. `was` is undefined where nobody knows what shows. */
export function changeOf(row: number, was: SentLine | undefined, is: SentLine, theme: Theme): string {
  if (!was) return whole(row, is, theme);
  const isUnchanged = was.cells.length === is.cells.length && is.cells.every((cell, k) => isSame(cell, was.cells[k]));
  if (isUnchanged) return '';
  return was.isEven && is.isEven ? part(row, was, is, theme) : whole(row, is, theme);
}
