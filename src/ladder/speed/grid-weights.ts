/** Weights over the grid, and what marks and days do to them. None of it changes its arguments. */
import { GRID_SIZE, CURVE_KINDS, LOG_SPACING, LOG_TEMPOS } from './estimate-grid.ts';

/** Weights that add up to 1. Only the tempos from `low` up to but not including `high` have any. */
export interface GridWeights {
  readonly values: Float64Array;
  readonly low: number;
  readonly high: number;
}

const WIDTH = CURVE_KINDS.length;

/** A tempo at either end with less than this is dropped; days bring it back. Keeps the work to where the player is. */
const NEGLIGIBLE = 1e-9;
const RESCALE_EVERY = 32;
/** What is left of the refuted: numbers much smaller than this are slow to reckon with. */
const TRACE = 1e-40;
const ONES = new Float64Array(GRID_SIZE).fill(1);

/** Before any mark: every tempo alike. */
export const EVEN_WEIGHTS: GridWeights = {
  values: Float64Array.from({ length: GRID_SIZE }, (_, cell) => CURVE_KINDS[cell % WIDTH]!.weight / LOG_TEMPOS.length),
  low: 0,
  high: LOG_TEMPOS.length,
};

function rowSum(values: Float64Array, row: number): number {
  let sum = 0;
  for (let i = row * WIDTH; i < (row + 1) * WIDTH; i += 1) sum += values[i]!;
  return sum;
}

/**
 * Where the weights are, negligible ends apart. Asked once a day only, so that marks one by one give the same as all
 * at once.
 */
function extentOf({ values, low, high }: GridWeights): { low: number; high: number } {
  let [from, to] = [low, high];
  while (rowSum(values, from) < NEGLIGIBLE) from += 1;
  while (rowSum(values, to - 1) < NEGLIGIBLE) to -= 1;
  return { low: from, high: to };
}

function rescale(values: Float64Array, low: number, high: number): void {
  let total = 0;
  for (let i = low * WIDTH; i < high * WIDTH; i += 1) total += values[i]!;
  const factor = 1 / total;
  for (let i = low * WIDTH; i < high * WIDTH; i += 1) values[i] = values[i]! * factor + TRACE;
}

/** Four rows at a time: most of the work on a long journal is here. */
function times(values: Float64Array, rows: readonly Float64Array[], from: number, to: number): void {
  for (let r = 0; r < rows.length; r += 4) {
    const a = rows[r]!;
    const b = rows[r + 1] ?? ONES;
    const c = rows[r + 2] ?? ONES;
    const d = rows[r + 3] ?? ONES;
    for (let i = from; i < to; i += 1) values[i] = values[i]! * a[i]! * (b[i]! * c[i]! * d[i]!);
  }
}

/** Multiplied by the likelihoods of some marks. */
export function timesLikelihoods(cells: GridWeights, rows: readonly Float64Array[]): GridWeights {
  const { low, high } = cells;
  const values = cells.values.slice();
  for (let r = 0; r < rows.length; r += RESCALE_EVERY) {
    times(values, rows.length > RESCALE_EVERY ? rows.slice(r, r + RESCALE_EVERY) : rows, low * WIDTH, high * WIDTH);
    rescale(values, low, high);
  }
  return { values, low, high };
}

/** Multiplied by a weight of the log tempo. */
export function timesTempoWeight(cells: GridWeights, weightOf: (speed: number) => number): GridWeights {
  const { low, high } = cells;
  const values = cells.values.slice();
  for (let row = low; row < high; row += 1) {
    const weight = weightOf(LOG_TEMPOS[row]!);
    for (let i = row * WIDTH; i < (row + 1) * WIDTH; i += 1) values[i]! *= weight;
  }
  rescale(values, low, high);
  return { values, low, high };
}

/** One pass of a blur: a share goes `reach` tempos down, as much up; what would leave the grid stays at its end. */
function blur(from: Float64Array, out: Float64Array, low: number, high: number, { reach, share }: Pass): void {
  const stays = 1 - 2 * share;
  const step = reach * WIDTH;
  const first = Math.max(low, reach);
  const last = Math.max(first, Math.min(high, LOG_TEMPOS.length - reach));
  for (let i = first * WIDTH; i < last * WIDTH; i += 1) {
    out[i] = stays * from[i]! + share * (from[i - step]! + from[i + step]!);
  }
  for (let i = low * WIDTH; i < first * WIDTH; i += 1) out[i] = (1 - share) * from[i]! + share * from[i + step]!;
  for (let i = last * WIDTH; i < high * WIDTH; i += 1) out[i] = (1 - share) * from[i]! + share * from[i - step]!;
}

interface Pass {
  readonly reach: number;
  readonly share: number;
}

const repeated = (count: number, reach: number, variance: number): readonly Pass[] =>
  Array.from({ length: count }, () => ({ reach, share: variance / (2 * count * reach ** 2) }));

/**
 * Passes that add up to a variance, in squares of the grid's spacing. Large ones reach two tempos at a time;
 * a quarter each way first, so that neighbours do not part into odd and even.
 */
function passesOf(variance: number): readonly Pass[] {
  if (variance <= 1.2) return repeated(Math.ceil(variance / 0.6), 1, variance);
  return [{ reach: 1, share: 0.25 }, ...repeated(Math.ceil((variance - 0.5) / 2.4), 2, variance - 0.5)];
}

/** Spreads the tempo by a variance (natural log, squared): what days do to what is known. */
export function spreadTempo(cells: GridWeights, variance: number): GridWeights {
  const passes = passesOf(variance / LOG_SPACING ** 2);
  let { low, high } = extentOf(cells);
  let from: Float64Array = cells.values;
  let out: Float64Array = new Float64Array(GRID_SIZE);
  for (const pass of passes) {
    low = Math.max(low - pass.reach, 0);
    high = Math.min(high + pass.reach, LOG_TEMPOS.length);
    blur(from, out, low, high, pass);
    // The cells that came in are not written on: only two new arrays take turns.
    [from, out] = [out, from === cells.values && passes.length > 1 ? new Float64Array(GRID_SIZE) : from];
  }
  return { values: from, low, high };
}

/** The weights of the tempos alone. */
export function tempoWeights({ values, low, high }: GridWeights): Float64Array {
  const out = new Float64Array(LOG_TEMPOS.length);
  for (let row = low; row < high; row += 1) out[row] = rowSum(values, row);
  return out;
}
