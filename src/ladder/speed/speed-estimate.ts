/**
 * The speed estimate: from a line's marks, the tempo at which this player is clean nine times in ten.
 *
 * A Bayesian filter over a grid. Each mark multiplies the grid by its likelihood; each day that passes
 * spreads it, so old marks fade. What is believed before any mark of the line (the weak prior, or what its
 * siblings say) comes in only when the estimate is read, and so can change without a recount.
 */
import { type DayNumber, dayNumber } from '../../common/days.ts';
import type { Bpm } from '../../common/units.ts';
import { isPlayable } from '../rule/rule-check.ts';

import { type Cells, FLAT, multiplied, overSpeeds, spread, weighed } from './grid-weights.ts';
import { type Likelihoods, SPACING, SPEEDS, likelihoods } from './estimate-grid.ts';
import type { MarkCounts, Tally } from './line-history.ts';
import { tenseGap } from '../settling/player-curve.ts';
import type { LadderRule, Mark } from '../rule/ladder-rule.ts';

export interface MarkSeen {
  readonly day: DayNumber;
  readonly bpm: Bpm;
  readonly mark: Mark;
}

/** What a line's marks say by themselves. Never changed in place: to undo a mark, keep the belief before it. */
export interface Belief {
  /** Day of the last mark; null before any. */
  readonly day: DayNumber | null;
  readonly marks: number;
  readonly cells: Cells;
}

/** A normal distribution over the natural log of a tempo. */
export interface Normal {
  readonly mean: number;
  readonly sd: number;
}

export interface SpeedEstimate {
  /** The tempo of nine clean in ten: as likely too low as too high. */
  readonly bpm: Bpm;
  /** The 80 % interval. */
  readonly low: Bpm;
  readonly high: Bpm;
  /** How many marks of the line itself it rests on. */
  readonly marks: number;
}

/** How this player marks: the likelihood of each mark at a tempo, kept once it was computed. */
export type Marking = (bpm: Bpm) => Likelihoods;

/** How far a player's speed wanders in a day, natural log: 1 %. */
export const DAILY_DRIFT = 0.01;
/** After so many days without a mark no more is forgotten. */
const FORGOTTEN_AFTER = 120;

export const NOTHING_KNOWN: Belief = { day: null, marks: 0, cells: FLAT };

/** `tense` as in `Curve`: the share of tense among what is not clean, at the threshold. */
export function markingOf(tense: number): Marking {
  const gap = tenseGap(tense);
  const known = new Map<Bpm, Likelihoods>();
  return (bpm) => {
    const kept = known.get(bpm) ?? likelihoods(bpm, gap);
    known.set(bpm, kept);
    return kept;
  };
}

/** The share of tense that a player's own marks show; near the usual third until there are some dozens. */
export function tenseShareOf({ tense, missed }: Pick<MarkCounts, 'tense' | 'missed'>): number {
  const share = (tense + 5) / (tense + missed + 10);
  // Most marks are given well below the threshold, where tense is commoner: see `outcomesAt`.
  return share / (2 - share);
}

/** The cells as they are believed on a later day. */
function aged({ cells, day: last }: Belief, day: DayNumber): Cells {
  const days = last === null ? 0 : Math.min(Math.max(day - last, 0), FORGOTTEN_AFTER);
  return days === 0 ? cells : spread(cells, days * DAILY_DRIFT ** 2);
}

const latest = (a: DayNumber | null, b: DayNumber): DayNumber => (a === null ? b : Math.max(a, b));

const afterDay = (belief: Belief, day: DayNumber, rows: readonly Float64Array[]): Belief => ({
  day: latest(belief.day, day),
  marks: belief.marks + rows.length,
  cells: multiplied(aged(belief, day), rows),
});

/** Runs of neighbours of the same day. */
function byDay<T extends { readonly day: DayNumber | string }>(marks: readonly T[]): readonly (readonly T[])[] {
  const days: T[][] = [];
  for (const mark of marks) {
    if (days.at(-1)?.[0]?.day === mark.day) days.at(-1)!.push(mark);
    else days.push([mark]);
  }
  return days;
}

const isSound = ({ bpm, day }: { bpm: Bpm; day: DayNumber }): boolean => isPlayable(bpm) && Number.isFinite(day);

/**
 * The belief after more marks, in the order in which they were given. A tempo that nobody can play says
 * nothing and is left out. One mark at a time gives the same as all at once.
 */
export const absorb = (marking: Marking, belief: Belief, marks: readonly MarkSeen[]): Belief =>
  byDay(marks.filter(isSound)).reduce(
    (now, seen) =>
      afterDay(
        now,
        seen[0]!.day,
        seen.map(({ bpm, mark }) => marking(bpm)[mark]),
      ),
    belief,
  );

const MARKS: readonly Mark[] = ['clean', 'tense', 'missed'];

/** The marks of some tallies, one row each. Loops, because a long journal spends a good part of its time here. */
function rowsOf(marking: Marking, tallies: readonly Tally[]): readonly Float64Array[] {
  const rows: Float64Array[] = [];
  for (const tally of tallies) {
    const likelihood = marking(tally.bpm);
    for (const mark of MARKS) for (let n = tally[mark]; n > 0; n -= 1) rows.push(likelihood[mark]);
  }
  return rows;
}

/** The same from the counts of a line's history: within a day the order of marks does not matter. */
export const absorbTallies = (marking: Marking, belief: Belief, tallies: readonly Tally[]): Belief =>
  byDay(tallies).reduce((now, seen) => {
    const day = dayNumber(seen[0]!.day);
    const sound = seen.filter(({ bpm }) => isPlayable(bpm));
    return sound.length === 0 || !Number.isFinite(day) ? now : afterDay(now, day, rowsOf(marking, sound));
  }, belief);

/** Before any mark on any line: near where the exercise's author starts, but wide: 8 of 10 within a factor of 1.8. */
export const weakPrior = ({ start }: Pick<LadderRule, 'start'>): Normal => ({ mean: Math.log(start) + 0.2, sd: 0.45 });

const density = ({ mean, sd }: Normal, x: number): number => Math.exp(-0.5 * ((x - mean) / sd) ** 2);

/** What the marks and the prior say together on `day`. */
export const believed = (belief: Belief, prior: Normal, day: DayNumber): Cells =>
  weighed(aged(belief, day), (speed) => density(prior, speed));

/** Mean and standard deviation over the natural log of the tempo. */
export function momentsOf(cells: Cells): Normal {
  const weights = overSpeeds(cells);
  const mean = weights.reduce((sum, w, i) => sum + w * SPEEDS[i]!, 0);
  const variance = weights.reduce((sum, w, i) => sum + w * (SPEEDS[i]! - mean) ** 2, SPACING ** 2 / 12);
  return { mean, sd: Math.sqrt(variance) };
}

/** The log tempo below which a share of the weight lies; each weight fills its own cell evenly. */
function quantile(weights: Float64Array, share: number): number {
  let sum = 0;
  const cell = weights.findIndex((weight) => (sum += weight) >= share);
  const i = cell < 0 ? weights.length - 1 : cell;
  return SPEEDS[i]! + SPACING * (0.5 - (sum - share) / (weights[i]! || 1));
}

/** The estimate for `day`, from a line's belief and what is believed without its marks. */
export function speedOf(belief: Belief, prior: Normal, day: DayNumber): SpeedEstimate {
  const weights = overSpeeds(believed(belief, prior, day));
  const at = (share: number): Bpm => Math.exp(quantile(weights, share));
  return { bpm: at(0.5), low: at(0.1), high: at(0.9), marks: belief.marks };
}

/** How likely a repetition is to be clean, everything unknown averaged over; `likelihoods` of its tempo. */
export const chanceOfClean = ({ values }: Cells, { clean }: Likelihoods): number =>
  values.reduce((sum, weight, cell) => sum + weight * clean[cell]!, 0);
