/**
 * The speed estimate: from a line's marks, the tempo at which this player is clean nine times in ten.
 *
 * A Bayesian filter over a grid of tempos, curves and kinds of days. The marks of a day share that day's form;
 * each night spreads the tempo by what the player's days seem to do, so old marks fade. What is believed before any
 * mark of the line (the weak prior, or what its siblings say) comes in only when the estimate is read, and so can
 * change without a recount.
 */
import { type DayKind, DAY_KINDS } from './day-kinds.ts';
import { morningOf } from './forgetting.ts';
import { type DayNumber, dayNumber } from '../../common/days.ts';
import type { Bpm } from '../../common/units.ts';
import { isPlayable } from '../rule/rule-check.ts';

import {
  type GridWeights,
  evenRows,
  eveningOf,
  gridOf,
  tempoWeights,
  timesLikelihoods,
  unmarkedDay,
} from './grid-weights.ts';
import type { Rows } from './row-blur.ts';
import { type Likelihoods, LOG_SPACING, LOG_TEMPOS, likelihoods } from './estimate-grid.ts';
import { type MarkCounts, type Tally, repetitions } from './line-history.ts';
import { tenseGap } from '../settling/player-curve.ts';
import type { LadderRule, Mark } from '../rule/ladder-rule.ts';

/** What a line's marks say by themselves. Never changed in place: to undo a mark, keep the belief before it. */
export interface Belief {
  /** Day of the last mark; null before any. */
  readonly day: DayNumber | null;
  readonly marks: number;
  /** The kinds of days that are thought possible. */
  readonly days: readonly DayKind[];
  /** What was believed on the morning of that day, and how likely its marks are. */
  readonly morning: Rows;
  readonly marked: Rows;
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

/** Before any mark. */
export function unmarked(days: readonly DayKind[]): Belief {
  const morning = evenRows(days);
  return { day: null, marks: 0, days, morning, marked: unmarkedDay(morning, days) };
}

export const NO_BELIEF: Belief = unmarked(DAY_KINDS);

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

/** On the morning of `day`; on the last day itself, and before, with all of its marks. */
const believedOn = ({ days, day: last, morning, marked }: Belief, day: DayNumber): Rows =>
  morningOf(eveningOf(morning, marked, days), last, day, days);

/** The same day goes on; on a later one what is believed begins anew, from the evening before. */
function dayBegun(belief: Belief, day: DayNumber): Belief {
  if (belief.day !== null && day <= belief.day) return belief;
  if (belief.day === null) return { ...belief, day };
  const morning = believedOn(belief, day);
  return { ...belief, day, morning, marked: unmarkedDay(morning, belief.days) };
}

function afterDay(belief: Belief, day: DayNumber, rows: readonly Float64Array[]): Belief {
  const begun = dayBegun(belief, day);
  return { ...begun, marks: belief.marks + rows.length, marked: timesLikelihoods(begun.marked, rows) };
}

/** Runs of neighbours of the same day. */
function byDay(tallies: readonly Tally[]): readonly (readonly Tally[])[] {
  const days: Tally[][] = [];
  for (const tally of tallies) {
    if (days.at(-1)?.[0]?.day === tally.day) days.at(-1)!.push(tally);
    else days.push([tally]);
  }
  return days;
}

const MARKS: readonly Mark[] = ['clean', 'tense', 'missed'];

/** The marks of some tallies, one row each. Loops, because a long journal spends a good part of its time here. */
export function likelihoodRows(marking: Marking, tallies: readonly Tally[]): readonly Float64Array[] {
  const rows: Float64Array[] = [];
  for (const tally of tallies) {
    const likelihood = marking(tally.bpm);
    for (const mark of MARKS) for (let n = tally[mark]; n > 0; n -= 1) rows.push(likelihood[mark]);
  }
  return rows;
}

/**
 * The belief after more marks, in the order of their days; within a day their order does not matter. A tempo that
 * nobody can play and a day that is no date say nothing and are left out. One mark at a time gives the same as all
 * at once.
 */
export const afterTallies = (marking: Marking, belief: Belief, tallies: readonly Tally[]): Belief =>
  byDay(tallies).reduce((now, seen) => {
    const day = dayNumber(seen[0]!.day);
    const sound = seen.filter(({ bpm }) => isPlayable(bpm));
    return sound.length === 0 || !Number.isFinite(day) ? now : afterDay(now, day, likelihoodRows(marking, sound));
  }, belief);

/** Marks at tempos that somebody can play. */
export const playableMarks = (tallies: readonly Tally[]): number =>
  tallies.reduce((sum, tally) => sum + (isPlayable(tally.bpm) ? repetitions(tally) : 0), 0);

/** So many days of practice are read: what a player's curve was like before them says next to nothing of today's. */
const DAYS_READ = 40;

/** The belief from all tallies of a line; the marks of days too long ago are counted, and no more. */
export function beliefFrom(marking: Marking, tallies: readonly Tally[]): Belief {
  const days = byDay(tallies);
  const old = playableMarks(days.slice(0, -DAYS_READ).flat());
  return afterTallies(marking, { ...NO_BELIEF, marks: old }, days.slice(-DAYS_READ).flat());
}

/** Before any mark on any line: near where the exercise's author starts, but wide: 8 of 10 within a factor of 1.8. */
export const weakPrior = ({ start }: Pick<LadderRule, 'start'>): Normal => ({ mean: Math.log(start) + 0.2, sd: 0.45 });

/** Two independent opinions in one. */
export function together(a: Normal, b: Normal): Normal {
  const [wa, wb] = [1 / a.sd ** 2, 1 / b.sd ** 2];
  return { mean: (a.mean * wa + b.mean * wb) / (wa + wb), sd: Math.sqrt(1 / (wa + wb)) };
}

const density = ({ mean, sd }: Normal, x: number): number => Math.exp(-0.5 * ((x - mean) / sd) ** 2);

/** What the marks and the prior say together on `day`. */
export const weightsOn = (belief: Belief, prior: Normal, day: DayNumber): GridWeights =>
  gridOf(believedOn(belief, day), (speed) => density(prior, speed));

/** Mean and standard deviation over the natural log of the tempo. */
export function normalOf(grid: GridWeights): Normal {
  const weights = tempoWeights(grid);
  const mean = weights.reduce((sum, w, i) => sum + w * LOG_TEMPOS[i]!, 0);
  const variance = weights.reduce((sum, w, i) => sum + w * (LOG_TEMPOS[i]! - mean) ** 2, LOG_SPACING ** 2 / 12);
  return { mean, sd: Math.sqrt(variance) };
}

/** The log tempo below which a share of the weight lies; each weight fills its own cell evenly. */
function quantile(weights: Float64Array, share: number): number {
  let sum = 0;
  const cell = weights.findIndex((weight) => (sum += weight) >= share);
  const i = cell < 0 ? weights.length - 1 : cell;
  return LOG_TEMPOS[i]! + LOG_SPACING * (0.5 - (sum - share) / (weights[i]! || 1));
}

/** The estimate for `day`, from a line's belief and what is believed without its marks. */
export function speedEstimate(belief: Belief, prior: Normal, day: DayNumber): SpeedEstimate {
  const weights = tempoWeights(weightsOn(belief, prior, day));
  const at = (share: number): Bpm => Math.exp(quantile(weights, share));
  return { bpm: at(0.5), low: at(0.1), high: at(0.9), marks: belief.marks };
}

/** How likely a repetition is to be clean, everything unknown averaged over; `likelihoods` of its tempo. */
export const chanceOfClean = ({ values }: GridWeights, { clean }: Likelihoods): number =>
  values.reduce((sum, weight, cell) => sum + weight * clean[cell]!, 0);
