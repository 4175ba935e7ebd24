/** A player as a curve: how often they are clean at each tempo of one line. */
import type { Bpm } from '../../common/units.ts';
import type { Mark } from '../rule/ladder-rule.ts';

/** A logistic curve over the logarithm of the tempo. */
export interface PlayerCurve {
  /** The tempo at which half of the repetitions are clean, lapses apart. */
  readonly threshold: Bpm;
  /**
   * How suddenly it falls apart: logits per unit of natural-log tempo, about 4 (gently) to 40 (at once).
   * At 12, ten per cent below the threshold is 78 % clean and ten per cent above is 24 %.
   */
  readonly slope: number;
  /** The share of repetitions that fail at any tempo: a split note, a telephone. 0 to below 0.1. */
  readonly lapse: number;
  /** Of the repetitions at the threshold that are not clean, lapses apart, the share that is tense and not missed. */
  readonly tense: number;
}

export type MarkChances = Readonly<Record<Mark, number>>;

/** 0 where the exponential overflows, as it should be. */
const sigmoid = (z: number): number => 1 / (1 + Math.exp(-z));
export const logit = (p: number): number => Math.log(p / (1 - p));

/** How many logits harder it is to be clean than not to miss: the share of tense at the threshold, turned round. */
export const tenseGap = (tense: number): number => Math.log((1 + tense) / (1 - tense));

/**
 * Probabilities of the three marks, which add up to 1. Tense lies between clean and missed on one scale
 * (the cumulative logit model for ordered answers); a lapse is a miss.
 */
export function markChancesAt(z: number, lapse: number, gap: number): MarkChances {
  const clean = (1 - lapse) * sigmoid(z);
  const tense = (1 - lapse) * (sigmoid(z + gap) - sigmoid(z));
  return { clean, tense, missed: lapse + (1 - lapse) * sigmoid(-z - gap) };
}

export const markChances = ({ threshold, slope, lapse, tense }: PlayerCurve, bpm: Bpm): MarkChances =>
  markChancesAt(slope * Math.log(threshold / bpm), lapse, tenseGap(tense));
