/**
 * The grid that a speed estimate is spread over: the tempo of nine clean in ten, by how suddenly it falls
 * apart, by how often anything lapses. One flat array, the tempo outermost.
 */
import type { Bpm } from '../../common/units.ts';
import { logit } from '../settling/player-curve.ts';
import type { Mark } from '../rule/ladder-rule.ts';

/** The share of clean repetitions that an estimate is about. */
export const SHARE_SOUGHT = 0.9;

/** Distance of two tempos of the grid, natural log: 4 %. Between them it is read off by straight lines. */
export const LOG_SPACING = 0.04;
const LOWEST = Math.log(8);
/** 8 to 500 beats per minute. */
export const LOG_TEMPOS: readonly number[] = Array.from({ length: 104 }, (_, i) => LOWEST + i * LOG_SPACING);

interface Weighed {
  readonly value: number;
  readonly weight: number;
}

/** Wide, and no value ruled out: from 20 % of tempo between 9 in 10 and 5 in 10 down to 5 %. */
const SLOPES: readonly Weighed[] = [
  { value: 5, weight: 0.19 },
  { value: 8.5, weight: 0.26 },
  { value: 14.5, weight: 0.24 },
  { value: 25, weight: 0.19 },
  { value: 42, weight: 0.12 },
];

const LAPSES: readonly Weighed[] = [
  { value: 0.005, weight: 0.35 },
  { value: 0.03, weight: 0.4 },
  { value: 0.065, weight: 0.25 },
];

interface Kind {
  readonly slope: number;
  readonly lapse: number;
  readonly weight: number;
}

/** Logits of being clean at a tempo, lapses apart, if nine in ten are clean at exp(speed). */
export const logitOfClean = (speed: number, { slope, lapse }: Omit<Kind, 'weight'>, bpm: Bpm): number =>
  slope * (speed - Math.log(bpm)) + logit(SHARE_SOUGHT / (1 - lapse));

/** Every slope with every lapse rate. */
export const CURVE_KINDS: readonly Kind[] = SLOPES.flatMap((slope) =>
  LAPSES.map((lapse) => ({ slope: slope.value, lapse: lapse.value, weight: slope.weight * lapse.weight })),
);

export const GRID_SIZE = LOG_TEMPOS.length * CURVE_KINDS.length;

/** The likelihood of each mark at one tempo, over the whole grid. */
export type Likelihoods = Readonly<Record<Mark, Float64Array>>;

/** Nothing is quite impossible. */
const LEAST = 1e-6;

/**
 * `outcomesAt` for every cell. Along the tempo its exponential is a geometric series, so that one call costs
 * a few multiplications a cell: a journal with many tempos needs many of these.
 */
export function likelihoods(bpm: Bpm, gap: number): Likelihoods {
  const [clean, tense, missed] = [
    new Float64Array(GRID_SIZE),
    new Float64Array(GRID_SIZE),
    new Float64Array(GRID_SIZE),
  ];
  const eased = Math.exp(-gap);
  CURVE_KINDS.forEach(({ slope, lapse }, kind) => {
    const ratio = Math.exp(-slope * LOG_SPACING);
    let odds = Math.exp(-logitOfClean(LOWEST, { slope, lapse }, bpm));
    for (let cell = kind; cell < GRID_SIZE; cell += CURVE_KINDS.length, odds *= ratio) {
      const atLeastClean = (1 - lapse) / (1 + odds);
      const atLeastTense = (1 - lapse) / (1 + odds * eased);
      clean[cell] = Math.max(atLeastClean, LEAST);
      tense[cell] = Math.max(atLeastTense - atLeastClean, LEAST);
      missed[cell] = Math.max(1 - atLeastTense, LEAST);
    }
  });
  return { clean, tense, missed };
}
