/**
 * Lines lend each other what they know. Over the log of notes per second a line's speed is the player's own,
 * plus something of its exercise, of its articulation, of the two together, of its key, and of itself alone:
 * a hierarchical normal model, solved exactly.
 */
import type { Line } from '../line.ts';
import type { Normal } from './speed-estimate.ts';
import { type Square, cholesky, inverseDiagonal, solveLower, solveUpper, squareOf } from './matrix.ts';

/** What one line's own marks say: a reading with its error. */
export interface Reading {
  readonly line: Line;
  /** Natural log of the notes per second at nine clean in ten. */
  readonly speed: number;
  readonly sd: number;
}

export interface PooledReadings {
  readonly readings: readonly Reading[];
  /** How much this player's lines differ, against the usual. */
  readonly scale: number;
  readonly factor: Square;
  /** The inverse of the covariance times the deviations. */
  readonly weights: Float64Array;
}

/** Five notes a second, sixteenths at 75, within a factor of two: before any line is known. */
const ANY_PLAYER: Normal = { mean: Math.log(5), sd: 0.55 };

/** Standard deviations, natural log. From judgement, not from a study; `scale` fits them to the player. */
const DIFFERS = { exercise: 0.2, articulation: 0.1, both: 0.08, key: 0.06, exerciseKey: 0.05, alone: 0.05 } as const;
const SCALES: readonly number[] = [0.35, 0.6, 1, 1.7, 2.8];

/** How much of their difference from the player two lines share. */
function shared(a: Line, b: Line): number {
  const exercise = a.exercise === b.exercise;
  const articulation = a.articulation === b.articulation;
  const key = a.key === b.key;
  let sum = 0;
  if (exercise) sum += DIFFERS.exercise ** 2;
  if (articulation) sum += DIFFERS.articulation ** 2;
  if (exercise && articulation) sum += DIFFERS.both ** 2;
  if (key) sum += DIFFERS.key ** 2;
  if (exercise && key) sum += DIFFERS.exerciseKey ** 2;
  if (exercise && articulation && key) sum += DIFFERS.alone ** 2;
  return sum;
}

/** Between two lines' true speeds. */
const covariance = (a: Line, b: Line, scale: number): number => ANY_PLAYER.sd ** 2 + scale ** 2 * shared(a, b);

const deviations = (readings: readonly Reading[]): readonly number[] =>
  readings.map(({ speed }) => speed - ANY_PLAYER.mean);

function pooledAt(readings: readonly Reading[], likeness: Square, scale: number): PooledReadings {
  const { size } = likeness;
  const cells = likeness.cells.map((share) => ANY_PLAYER.sd ** 2 + scale ** 2 * share);
  readings.forEach(({ sd }, i) => (cells[i * size + i]! += sd ** 2));
  const factor = cholesky({ size, cells });
  return { readings, scale, factor, weights: solveUpper(factor, solveLower(factor, deviations(readings))) };
}

/** Log likelihood of the readings, but for a constant. */
function fit({ readings, factor, weights }: PooledReadings): number {
  const square = readings.reduce((sum, { speed }, i) => sum + (speed - ANY_PLAYER.mean) * weights[i]!, 0);
  let logs = 0;
  for (let i = 0; i < factor.size; i += 1) logs += Math.log(factor.cells[i * factor.size + i]!);
  return -0.5 * square - logs;
}

const poolAt = (readings: readonly Reading[], scales: readonly number[]): readonly PooledReadings[] => {
  const likeness = squareOf(readings.length, (i, j) => shared(readings[i]!.line, readings[j]!.line));
  return scales.map((scale) => pooledAt(readings, likeness, scale));
};

/** Enough lines to choose a scale by: more would take longer and hardly choose another. */
const TO_CHOOSE_BY = 120;

const liking = (pool: PooledReadings): number => fit(pool) - 0.5 * (Math.log(pool.scale) / 0.6) ** 2;

/** The scale that the player's own lines speak for; few lines say little, so the usual one is favoured a little. */
function scaleOf(readings: readonly Reading[]): number {
  const every = Math.ceil(readings.length / TO_CHOOSE_BY);
  const some = readings.filter((_, i) => i % every === 0);
  return poolAt(some, SCALES).reduce((best, pool) => (liking(pool) > liking(best) ? pool : best)).scale;
}

/** What the readings say together, at the scale that suits them or at a given one. */
export const pooled = (readings: readonly Reading[], scale = scaleOf(readings)): PooledReadings =>
  poolAt(readings, [scale])[0]!;

/** The speed of a line that no reading is of: log notes per second. With no readings it is any player's. */
export function predictLine({ readings, scale, factor, weights }: PooledReadings, line: Line): Normal {
  const to = readings.map((reading) => covariance(reading.line, line, scale));
  const mean = to.reduce((sum, c, i) => sum + c * weights[i]!, ANY_PLAYER.mean);
  const explained = solveLower(factor, to).reduce((sum, x) => sum + x * x, 0);
  return { mean, sd: Math.sqrt(covariance(line, line, scale) - explained) };
}

/** For each reading, what all others say of its line: the closed form of leaving one out. */
export function predictEachFromOthers({ readings, factor, weights }: PooledReadings): readonly Normal[] {
  const diagonal = inverseDiagonal(factor);
  return readings.map(({ speed, sd }, i) => ({
    mean: speed - weights[i]! / diagonal[i]!,
    sd: Math.sqrt(Math.max(1 / diagonal[i]! - sd ** 2, 1e-6)),
  }));
}
