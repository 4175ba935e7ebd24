/**
 * The states of the practice screen as they are left at two metres: letters gone, only how much ink stands where.
 * A window of 6 columns by 3 rows of an 80 by 24 screen of 28 cm is 2 cm square: common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { KEYS } from '../../src/ui/keys.ts';
import { plainText } from '../../src/ui/paint.ts';
import { type Size, wholeScreen } from '../../src/ui/whole-screen.ts';
import type { Stand } from '../../src/practice/stand.ts';
import { STATES } from './practice-states.ts';

const SIZES: readonly Size[] = [
  { columns: 60, rows: 18 },
  { columns: 64, rows: 20 },
  { columns: 80, rows: 24 },
  { columns: 120, rows: 36 },
  { columns: 200, rows: 60 },
];

/** 2 cm of a screen that is as large whatever its size in signs. */
const windowOf = ({ columns, rows }: Size) => ({
  columns: Math.round((columns * 6) / 80),
  rows: Math.round((rows * 3) / 24),
});
/**
 * What share of a window's ink has to differ, in one window at least, for two pictures to be told apart at a glance.
 * At this size eyes tell a contrast of some 1 in 100 apart (a textbook's contrast sensitivity, from memory).
 */
const SEEN = 0.2;
/** At the usual size more than that. */
const SEEN_USUALLY = 0.25;

type Letters = 'signs' | 'plain';

/**
 * How much of its cell a sign covers, a block being all of it; in ASCII of what '#' covers, which is its heaviest.
 * Measured in DejaVu Sans Mono at 60 pixels, 2026-11-25.
 */
const INK: Readonly<Record<Letters, Readonly<Record<string, number>>>> = {
  signs: { ' ': 0, '█': 1, '▓': 0.75, '▒': 0.5, '░': 0.25, '▄': 0.5 },
  plain: { ' ': 0, '#': 1, '%': 0.74, '+': 0.45, '.': 0.1, ':': 0.21, '|': 0.48, '=': 0.49, '-': 0.12, '~': 0.25 },
};
const LETTER: Readonly<Record<Letters, number>> = { signs: 0.19, plain: 0.78 };

type Blurred = readonly (readonly number[])[];

/** The mean ink of every window, one column and one row apart. */
function blurred(text: string, size: Size, letters: Letters): Blurred {
  const { columns, rows } = windowOf(size);
  const cells = text.split('\n').map((row) => [...row].map((sign) => INK[letters][sign] ?? LETTER[letters]));
  const sumAt = (top: number, left: number): number =>
    cells
      .slice(top, top + rows)
      .reduce((sum, row) => sum + row.slice(left, left + columns).reduce((all, ink) => all + ink, 0), 0);
  const width = Math.max(...cells.map((row) => row.length));
  return cells.map((_, top) => Array.from({ length: width }, (__, left) => sumAt(top, left) / (columns * rows)));
}

const largestDifference = (a: Blurred, b: Blurred): number =>
  Math.max(...a.map((row, y) => Math.max(0, ...row.map((ink, x) => Math.abs(ink - (b[y]?.[x] ?? 0))))));

const drawn = (stand: Stand, size: Size, letters: Letters): string =>
  plainText(wholeScreen(stand, KEYS, size, letters));

/** A mark that is due is asked for alike in the breath and after it; the rest each look different. */
const NAMES = Object.keys(STATES).filter((name) => name !== 'waiting');

const PAIRS = NAMES.flatMap((one, k) => NAMES.slice(k + 1).map((other) => [one, other] as const));

describe('from two metres, with all letters gone', () => {
  it.each(SIZES.flatMap((size) => (['signs', 'plain'] as const).map((letters) => ({ ...size, letters }))))(
    'no two states look alike at $columns by $rows in $letters',
    ({ letters, ...size }) => {
      const pictures = new Map(
        NAMES.map((name) => [name, blurred(drawn(STATES[name]!.stand, size, letters), size, letters)]),
      );
      const alike = PAIRS.flatMap(([one, other]) => {
        const apart = largestDifference(pictures.get(one)!, pictures.get(other)!);
        return apart < (size.columns === 80 ? SEEN_USUALLY : SEEN) ? [`${one} and ${other}: ${apart.toFixed(2)}`] : [];
      });
      expect(alike).toEqual([]);
    },
  );
});
