/**
 * Whether weeks of practice have made a line faster. Falls cannot say: under any rule a player falls at the edge,
 * every day. Stories are held against each other, each a pair of straight lines that meet: in the last weeks the
 * player stood still, or gained a little every week. How likely the marks are under each decides; the tempo, the
 * curve, the days' form and the gain before those weeks are averaged over.
 */
import type { DayNumber } from '../../common/days.ts';
import { CURVE_KINDS, LOG_SPACING, LOG_TEMPOS } from '../speed/estimate-grid.ts';
import { timesLikelihoods } from '../speed/grid-weights.ts';
import type { Tally } from '../speed/line-history.ts';
import { tapsOf } from '../speed/row-blur.ts';
import { type Marking, likelihoodRows } from '../speed/speed-estimate.ts';

export interface PracticeDay {
  readonly day: DayNumber;
  readonly tallies: readonly Tally[];
}

/** So many weeks are read: the ones before those in question say what was usual. */
const WEEKS_READ = 12;
/** Slow progress, natural log of the tempo a week. */
const SLOW_GAIN = 0.01;
const GAINS_BEFORE: readonly number[] = [0, 0.01, 0.02, 0.03];
/** How much the form of days may differ, natural log. */
const FORMS = [0.008, 0.02, 0.045].map((form) => tapsOf({ mean: 0, variance: (form / LOG_SPACING) ** 2 }));
const FORM_REACH = Math.max(...FORMS.map(({ length }) => length >> 1));

/** Weeks of marks know the tempo better than to a cell of the grid: its quarters are gone through as well. */
const BETWEEN = [-0.375, -0.125, 0.125, 0.375];
const KINDS = CURVE_KINDS.length;
/** So many tempos below the ones that are compared may a player have been at the beginning. */
const LOWER = 8;

interface Extent {
  readonly low: number;
  readonly high: number;
}

function rowNear(log: number, away: number): number {
  const row = Math.round((log - LOG_TEMPOS[0]!) / LOG_SPACING) + away;
  return Math.min(Math.max(row, FORM_REACH), LOG_TEMPOS.length - FORM_REACH);
}

/** Which tempos of the grid to look at: around those that were played. */
function extentOf(days: readonly PracticeDay[]): Extent {
  const logs = days.flatMap(({ tallies }) => tallies.map(({ bpm }) => Math.log(bpm)));
  return { low: rowNear(Math.min(...logs), -LOWER - 4), high: rowNear(Math.max(...logs), LOWER) };
}

/** Natural log of how likely a day's marks are at each tempo and curve, for each width of form. */
function logsOf(marking: Marking, { tallies }: PracticeDay, { low, high }: Extent): readonly Float64Array[] {
  const [from, to] = [low - FORM_REACH, high + FORM_REACH];
  const ones = { values: new Float64Array((to - from) * KINDS).fill(1), low: from, high: to };
  const { values } = timesLikelihoods(ones, likelihoodRows(marking, tallies));
  return FORMS.map((taps) => {
    const skip = (FORM_REACH - (taps.length >> 1)) * KINDS;
    return Float64Array.from({ length: (high - low) * KINDS }, (_, i) =>
      Math.log(taps.reduce((sum, tap, t) => sum + tap * values[skip + i + t * KINDS]!, 0)),
    );
  });
}

/** Adds a day at a shift in tempos: a cubic through four of them, for a straighter line would count as a gain. */
function addShifted(total: Float64Array, log: Float64Array, shift: number): void {
  const whole = Math.max(2 - LOWER, Math.floor(shift));
  const t = Math.min(Math.max(shift - whole, 0), 1);
  const below = (-t * (t - 1) * (t - 2)) / 6;
  const here = ((t + 1) * (t - 1) * (t - 2)) / 2;
  const above = (-(t + 1) * t * (t - 2)) / 2;
  const beyond = ((t + 1) * t * (t - 1)) / 6;
  for (let i = 0, at = (LOWER + whole) * KINDS; i < total.length; i += 1, at += 1) {
    total[i]! += below * log[at - KINDS]! + here * log[at]! + above * log[at + KINDS]! + beyond * log[at + 2 * KINDS]!;
  }
}

/** The natural log of the mean of numbers whose logs are given. */
function logMean(logs: ArrayLike<number>, weightOf: (i: number) => number): number {
  let most = -Infinity;
  for (let i = 0; i < logs.length; i += 1) most = Math.max(most, logs[i]!);
  let sum = 0;
  for (let i = 0; i < logs.length; i += 1) sum += weightOf(i) * Math.exp(logs[i]! - most);
  return most + Math.log(sum);
}

interface Story {
  /** Gained a week, natural log, in the last weeks, and before. */
  readonly gain: number;
  readonly before: number;
  /** How many weeks are the last ones. */
  readonly last: number;
}

/** How far below today's speed a story has a day, in tempos of the grid. */
function shiftOf({ gain, before, last }: Story, daysAgo: number): number {
  const weeks = daysAgo / 7;
  return -(Math.min(weeks, last) * gain + Math.max(0, weeks - last) * before) / LOG_SPACING;
}

/** How likely the marks of some days are if so much was gained in each of so many last weeks: natural log. */
type Likely = (gain: number, last: number) => number;

function likelyOf(marking: Marking, days: readonly PracticeDay[], until: DayNumber): Likely {
  const extent = extentOf(days);
  const cells = Math.max(extent.high - extent.low - LOWER - 2, 1) * KINDS;
  const logs = days.map((one) => logsOf(marking, one, extent));
  const likelyIf = (story: Story, form: number): number => {
    const between = BETWEEN.map((part) => {
      const total = new Float64Array(cells);
      days.forEach(({ day }, d) => addShifted(total, logs[d]![form]!, shiftOf(story, until - day) + part));
      return logMean(total, (i) => CURVE_KINDS[i % KINDS]!.weight);
    });
    return logMean(between, () => 1);
  };
  return (gain, last) => {
    const all = GAINS_BEFORE.flatMap((before) => FORMS.map((_, form) => likelyIf({ gain, before, last }, form)));
    return logMean(all, () => 1 / all.length);
  };
}

/**
 * For each of so many last weeks: how much more likely the marks are if the player stood still in them than if 1 % was
 * gained in each, natural log of the ratio. 0 where nothing is known.
 */
export function standstill(
  marking: Marking,
  days: readonly PracticeDay[],
  until: DayNumber,
  weeks: readonly number[],
): readonly number[] {
  const read = days.filter(({ day }) => day <= until && day > until - 7 * WEEKS_READ);
  if (read.length === 0) return weeks.map(() => 0);
  const likely = likelyOf(marking, read, until);
  return weeks.map((last) => likely(0, last) - likely(SLOW_GAIN, last));
}
