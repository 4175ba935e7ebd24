/** Weights over the grid, and what marks and days do to them. None of it changes its arguments. */
import { CELLS, KINDS, SPACING, SPEEDS } from './grid.ts';

/** Weights that add up to 1. Only the tempos from `low` up to but not including `high` have any. */
export interface Cells {
  readonly values: Float64Array;
  readonly low: number;
  readonly high: number;
}

const WIDTH = KINDS.length;

/** A tempo at either end with less than this is dropped; days bring it back. Keeps the work to where the player is. */
const NEGLIGIBLE = 1e-12;
const RESCALE_EVERY = 32;

/** Before any mark: every tempo alike. */
export const FLAT: Cells = {
  values: Float64Array.from({ length: CELLS }, (_, cell) => KINDS[cell % WIDTH]!.weight / SPEEDS.length),
  low: 0,
  high: SPEEDS.length,
};

function rowSum(values: Float64Array, row: number): number {
  let sum = 0;
  for (let i = row * WIDTH; i < (row + 1) * WIDTH; i += 1) sum += values[i]!;
  return sum;
}

function trimmed(values: Float64Array, low: number, high: number): Cells {
  let [from, to] = [low, high];
  while (rowSum(values, from) < NEGLIGIBLE) from += 1;
  while (rowSum(values, to - 1) < NEGLIGIBLE) to -= 1;
  values.fill(0, low * WIDTH, from * WIDTH);
  values.fill(0, to * WIDTH, high * WIDTH);
  return { values, low: from, high: to };
}

function rescale(values: Float64Array, low: number, high: number): void {
  let total = 0;
  for (let i = low * WIDTH; i < high * WIDTH; i += 1) total += values[i]!;
  const factor = 1 / total;
  for (let i = low * WIDTH; i < high * WIDTH; i += 1) values[i]! *= factor;
}

/** Multiplied by the likelihoods of some marks. */
export function multiplied(cells: Cells, rows: readonly Float64Array[]): Cells {
  const { low, high } = cells;
  const values = cells.values.slice();
  rows.forEach((row, n) => {
    for (let i = low * WIDTH; i < high * WIDTH; i += 1) values[i]! *= row[i]!;
    if (n % RESCALE_EVERY === RESCALE_EVERY - 1) rescale(values, low, high);
  });
  rescale(values, low, high);
  return trimmed(values, low, high);
}

/** Multiplied by a weight of the log tempo. */
export function weighed(cells: Cells, weightOf: (speed: number) => number): Cells {
  const { low, high } = cells;
  const values = cells.values.slice();
  for (let row = low; row < high; row += 1) {
    const weight = weightOf(SPEEDS[row]!);
    for (let i = row * WIDTH; i < (row + 1) * WIDTH; i += 1) values[i]! *= weight;
  }
  rescale(values, low, high);
  return { values, low, high };
}

/** One pass of a three-point blur along the tempo; what would leave at an end of the grid stays there. */
function blurred(cells: Cells, share: number): Cells {
  const low = Math.max(cells.low - 1, 0);
  const high = Math.min(cells.high + 1, SPEEDS.length);
  const values = new Float64Array(CELLS);
  const { values: from } = cells;
  for (let i = low * WIDTH; i < high * WIDTH; i += 1) {
    const below = i < WIDTH ? from[i]! : from[i - WIDTH]!;
    const above = i >= CELLS - WIDTH ? from[i]! : from[i + WIDTH]!;
    values[i] = (1 - 2 * share) * from[i]! + share * (below + above);
  }
  return { values, low, high };
}

/** Spreads the tempo by a variance (natural log, squared): what days do to what is known. */
export function spread(cells: Cells, variance: number): Cells {
  const passes = Math.ceil(variance / (0.6 * SPACING ** 2));
  const share = variance / (passes * 2 * SPACING ** 2);
  let out = cells;
  for (let pass = 0; pass < passes; pass += 1) out = blurred(out, share);
  return out;
}

/** The weights of the tempos alone. */
export function overSpeeds({ values, low, high }: Cells): Float64Array {
  const out = new Float64Array(SPEEDS.length);
  for (let row = low; row < high; row += 1) out[row] = rowSum(values, row);
  return out;
}
