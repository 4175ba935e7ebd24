/** Numbers and words in figures that can be read from across a room. */
import { type PaintedLine, type Tone, seg } from '../paint.ts';

/** Five cells high, drawn by hand; 'o' is a filled cell. */
const FIGURES: Readonly<Record<string, readonly string[]>> = {
  '0': ['ooo', 'o.o', 'o.o', 'o.o', 'ooo'],
  '1': ['.o.', 'oo.', '.o.', '.o.', 'ooo'],
  '2': ['ooo', '..o', 'ooo', 'o..', 'ooo'],
  '3': ['ooo', '..o', '.oo', '..o', 'ooo'],
  '4': ['o.o', 'o.o', 'ooo', '..o', '..o'],
  '5': ['ooo', 'o..', 'ooo', '..o', 'ooo'],
  '6': ['ooo', 'o..', 'ooo', 'o.o', 'ooo'],
  '7': ['ooo', '..o', '.o.', '.o.', '.o.'],
  '8': ['ooo', 'o.o', 'ooo', 'o.o', 'ooo'],
  '9': ['ooo', 'o.o', 'ooo', '..o', 'ooo'],
  '.': ['.', '.', '.', '.', 'o'],
  ':': ['.', 'o', '.', 'o', '.'],
  '/': ['..o', '..o', '.o.', 'o..', 'o..'],
  '?': ['ooo', '..o', '.oo', '...', '.o.'],
  A: ['ooo', 'o.o', 'ooo', 'o.o', 'o.o'],
  B: ['oo.', 'o.o', 'oo.', 'o.o', 'oo.'],
  C: ['ooo', 'o..', 'o..', 'o..', 'ooo'],
  D: ['oo.', 'o.o', 'o.o', 'o.o', 'oo.'],
  E: ['ooo', 'o..', 'oo.', 'o..', 'ooo'],
  F: ['ooo', 'o..', 'oo.', 'o..', 'o..'],
  G: ['ooo', 'o..', 'o.o', 'o.o', 'ooo'],
  H: ['o.o', 'o.o', 'ooo', 'o.o', 'o.o'],
  I: ['o', 'o', 'o', 'o', 'o'],
  J: ['..o', '..o', '..o', 'o.o', 'ooo'],
  K: ['o.o', 'o.o', 'oo.', 'o.o', 'o.o'],
  L: ['o..', 'o..', 'o..', 'o..', 'ooo'],
  M: ['o...o', 'oo.oo', 'o.o.o', 'o...o', 'o...o'],
  N: ['o..o', 'oo.o', 'o.oo', 'o..o', 'o..o'],
  O: ['ooo', 'o.o', 'o.o', 'o.o', 'ooo'],
  P: ['ooo', 'o.o', 'ooo', 'o..', 'o..'],
  Q: ['ooo', 'o.o', 'o.o', 'ooo', '..o'],
  R: ['ooo', 'o.o', 'oo.', 'o.o', 'o.o'],
  S: ['ooo', 'o..', 'ooo', '..o', 'ooo'],
  T: ['ooo', '.o.', '.o.', '.o.', '.o.'],
  U: ['o.o', 'o.o', 'o.o', 'o.o', 'ooo'],
  V: ['o.o', 'o.o', 'o.o', 'o.o', '.o.'],
  W: ['o...o', 'o...o', 'o.o.o', 'oo.oo', 'o...o'],
  X: ['o.o', 'o.o', '.o.', 'o.o', 'o.o'],
  Y: ['o.o', 'o.o', 'ooo', '.o.', '.o.'],
  Z: ['ooo', '..o', '.o.', 'o..', 'ooo'],
  ' ': ['.', '.', '.', '.', '.'],
  m: ['.....', '.....', 'oo.o.', 'o.o.o', 'o.o.o'],
  '♭': ['o..', 'o..', 'ooo', 'o.o', 'oo.'],
  '♯': ['o.o', 'ooo', 'o.o', 'ooo', 'o.o'],
};

/** Columns and rows that one cell of a figure takes. A cell of a terminal is about twice as tall as wide. */
export interface CellSize {
  readonly columns: number;
  readonly rows: number;
}

const square = (scale: number): CellSize => ({ columns: 2 * scale, rows: scale });

const cells = (row: string, { columns }: CellSize): string =>
  [...row].map((cell) => (cell === 'o' ? '█' : ' ').repeat(columns)).join('');

/** Whether every character of a text has a figure. */
export const hasFigures = (text: string): boolean => [...text].every((character) => FIGURES[character]);

const figuresOf = (text: string): readonly (readonly string[])[] =>
  [...text].flatMap((character) => (FIGURES[character] ? [FIGURES[character]] : []));

/** A text in tall figures, `5 * size.rows` rows of blocks and blanks. A character without a figure is left out. */
export function tallText(text: string, size: CellSize): readonly string[] {
  const figures = figuresOf(text);
  const gap = ' '.repeat(size.columns);
  return Array.from({ length: 5 * size.rows }, (_, row) =>
    figures.map((figure) => cells(figure[Math.floor(row / size.rows)] ?? '', size)).join(gap),
  );
}

/** Columns that `tallText` takes. */
export const tallWidth = (text: string, size: CellSize): number => {
  const widths = figuresOf(text).map((figure) => (figure[0]?.length ?? 0) * size.columns);
  return widths.reduce((sum, width) => sum + width, 0) + size.columns * Math.max(0, widths.length - 1);
};

/** `digits('137', 1, 'large')` is five lines of square cells, `scale` 2 ten. */
export const digits = (text: string, scale: number, tone: Tone): readonly PaintedLine[] =>
  tallText(text, square(scale)).map((row) => [seg(row, tone)]);

/** Columns that `digits` takes. */
export const digitsWidth = (text: string, scale: number): number => tallWidth(text, square(scale));

/** The largest cells for a text in so much room; narrow ones before none. Null where not even those fit. */
export function largestCells(text: string, width: number, height: number): CellSize | null {
  for (let rows = Math.floor(height / 5); rows >= 1; rows -= 1) {
    for (const columns of [2 * rows, Math.max(1, Math.round(1.5 * rows)), rows]) {
      if (tallWidth(text, { columns, rows }) <= width) return { columns, rows };
    }
  }
  return null;
}
