/** A number in figures that can be read from across a room. */
import { type PaintedLine, type Tone, seg } from '../paint.ts';

/** Three by five cells, drawn by hand; 'o' is a filled cell. */
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
};

/** A cell of a terminal is about twice as tall as wide: two columns make a square. */
const cells = (row: string, scale: number): string =>
  [...row].map((cell) => (cell === 'o' ? '█' : ' ').repeat(2 * scale)).join('');

/** `digits('137', 1, 'now')` is five lines, `scale` 2 ten. A character without a figure is left out. */
export function digits(text: string, scale: number, tone: Tone): readonly PaintedLine[] {
  const figures = [...text].flatMap((character) => (FIGURES[character] ? [FIGURES[character]] : []));
  const gap = ' '.repeat(2 * scale);
  return Array.from({ length: 5 * scale }, (_, row) => [
    seg(figures.map((figure) => cells(figure[Math.floor(row / scale)] ?? '', scale)).join(gap), tone),
  ]);
}

/** Columns that `digits` takes. */
export const digitsWidth = (text: string, scale: number): number => {
  const widths = [...text].map((character) => (FIGURES[character]?.[0]?.length ?? 0) * 2 * scale);
  return widths.reduce((sum, width) => sum + width, 0) + 2 * scale * (widths.length - 1);
};
