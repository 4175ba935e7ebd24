/**
 * Rows of the grid, one for each tempo, and their blur along the tempo. A row holds blocks of equal width, one for
 * each kind of days, and each block has a blur of its own. Nothing changes its arguments.
 */
import { LOG_TEMPOS } from './estimate-grid.ts';

/** The rows from `low` up to but not including `high`, one after another; elsewhere is nothing. */
export interface Rows {
  readonly values: Float64Array;
  readonly low: number;
  readonly high: number;
}

/** What a block is to be moved and spread by: mean and variance, in units of the grid's spacing and its square. */
export interface Spread {
  readonly mean: number;
  readonly variance: number;
}

/** The shares of a block that go so many tempos up and down. */
interface Shares {
  readonly up: number;
  readonly down: number;
}

interface Pass {
  readonly reach: number;
  readonly blocks: readonly Shares[];
  readonly width: number;
}

export type Blur = readonly Pass[];

/** A quarter each way at one tempo, two, four and so on leaves one smooth hill, without teeth. */
const MOST = 0.25;
const STAYS: Shares = { up: 0, down: 0 };

/** The first pass moves; a move of less than one tempo brings a variance along by itself. */
function sharesOf({ mean, variance }: Spread): readonly Shares[] {
  const shares: Shares[] = [];
  const least = Math.abs(mean) * (1 - Math.abs(mean));
  let left = Math.max(variance, least);
  for (let reach = 1; left > 1e-12; reach *= 2) {
    const move = reach === 1 ? mean : 0;
    const now = Math.min(left, Math.max(2 * MOST * reach ** 2 - move ** 2, reach === 1 ? least : 0));
    const both = now + move ** 2;
    shares.push({ up: (both + move) / 2 / reach ** 2, down: (both - move) / 2 / reach ** 2 });
    left -= now;
  }
  return shares;
}

/** For blocks, each so many cells wide, that are spread each by its own measure. */
export function blurOf(spreads: readonly Spread[], width: number): Blur {
  const all = spreads.map(sharesOf);
  const count = Math.max(...all.map(({ length }) => length));
  return Array.from({ length: count }, (_, k) => ({
    reach: 2 ** k,
    blocks: all.map((one) => one[k] ?? STAYS),
    width,
  }));
}

const TEMPOS = LOG_TEMPOS.length;

/**
 * Two desks to work at, the same each time: new arrays of this size cost more than what is done with them. They are
 * written on before they are read, and nothing that leaves this file lies on one.
 */
const desks = { near: new Float64Array(0), between: new Float64Array(0) };

function desk(which: keyof typeof desks, length: number): Float64Array {
  if (desks[which].length < length) desks[which] = new Float64Array(2 * length);
  return desks[which];
}

/** The rows with nothing in `cells` cells at either end, from which all neighbours can be read. */
function laidOut(values: Float64Array, cells: number): Float64Array {
  const length = values.length + 2 * cells;
  const near = desk('near', length);
  near.fill(0, 0, cells);
  near.set(values, cells);
  near.fill(0, cells + values.length, length);
  return near;
}

/** One pass; what would leave the grid stays at its end. `out` is as long as it takes. */
function passed({ values, low, high }: Rows, { reach, blocks, width }: Pass, isLast: boolean): Rows {
  const [from, to] = [Math.max(low - reach, 0), Math.min(high + reach, TEMPOS)];
  const row = blocks.length * width;
  const far = reach * row;
  const near = laidOut(values, 2 * far);
  const length = (to - from) * row;
  const out = isLast ? new Float64Array(length) : desk('between', length).subarray(0, length);
  const shift = (from - low) * row + 2 * far;
  for (let at = from, block = 0; at < to; at += 1) {
    for (const { up, down } of blocks) {
      const stay = 1 - (at + reach < TEMPOS ? up : 0) - (at - reach >= 0 ? down : 0);
      const end = block + width;
      for (let i = block, j = block + shift; i < end; i += 1, j += 1) {
        out[i] = stay * near[j]! + up * near[j - far]! + down * near[j + far]!;
      }
      block = end;
    }
  }
  return { values: out, low: from, high: to };
}

/** Each block blurred as its own measure says. */
export const blurred = (rows: Rows, blur: Blur): Rows =>
  blur.reduce((now, pass, k) => passed(now, pass, k === blur.length - 1), rows);

/** The taps of a blur of one block: what each neighbour gives, from as far below as above. */
export function tapsOf(spread: Spread): Float64Array {
  const middle = TEMPOS >> 1;
  const one = { values: Float64Array.of(1), low: middle, high: middle + 1 };
  return blurred(one, blurOf([spread], 1)).values;
}

/** Without the rows at either end that hold less than `least` in all. */
export function trimmed({ values, low, high }: Rows, least: number): Rows {
  const width = values.length / (high - low);
  const isLittle = (row: number): boolean => {
    let sum = 0;
    for (let i = (row - low) * width, end = i + width; i < end; i += 1) sum += values[i]!;
    return sum < least;
  };
  let [from, to] = [low, high];
  while (from < to - 1 && isLittle(from)) from += 1;
  while (to > from + 1 && isLittle(to - 1)) to -= 1;
  return { values: values.subarray((from - low) * width, (to - low) * width), low: from, high: to };
}
