/**
 * Whether weeks of practice have made a line faster. Falls cannot say: under any rule a player falls at the edge,
 * every day. Two stories are held against each other, each as a pair of straight lines that meet: in the last weeks
 * the player stood still, or gained a little every week. How likely the marks are under each decides; the tempo, the
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

/** For so many weeks may a player have stood still, and so many are read: the ones before say what was usual. */
const WEEKS_STILL = 6;
const WEEKS_READ = 9;
/** Slow progress, natural log of the tempo a week. */
const SLOW_GAIN = 0.01;
const GAINS_BEFORE: readonly number[] = [0, 0.01, 0.02, 0.03];
/** How much the form of days may differ, natural log. */
const FORMS = [0.008, 0.02, 0.045].map((form) => tapsOf({ mean: 0, variance: (form / LOG_SPACING) ** 2 }));
const FORM_REACH = Math.max(...FORMS.map(({ length }) => length >> 1));

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

/** Adds a day at a shift in tempos: a parabola between them, for straight lines would count against every gain. */
function addShifted(total: Float64Array, log: Float64Array, shift: number): void {
  const whole = Math.max(1 - LOWER, Math.round(shift));
  const part = Math.max(shift - whole, -0.5);
  const [below, here, above] = [(part * (part - 1)) / 2, 1 - part ** 2, (part * (part + 1)) / 2];
  for (let i = 0, at = (LOWER + whole) * KINDS; i < total.length; i += 1, at += 1) {
    total[i]! += below * log[at - KINDS]! + here * log[at]! + above * log[at + KINDS]!;
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
}

/** How far below today's speed a story has a day, in tempos of the grid. */
function shiftOf({ gain, before }: Story, daysAgo: number): number {
  const weeks = daysAgo / 7;
  return -(Math.min(weeks, WEEKS_STILL) * gain + Math.max(0, weeks - WEEKS_STILL) * before) / LOG_SPACING;
}

/**
 * How much more likely the marks are if the player stood still over the last weeks than if 1 % a week was gained:
 * natural log of the ratio. 0 where nothing is known.
 */
export function standstill(marking: Marking, days: readonly PracticeDay[], until: DayNumber): number {
  const read = days.filter(({ day }) => day <= until && day > until - 7 * WEEKS_READ);
  if (read.length === 0) return 0;
  const extent = extentOf(read);
  const cells = Math.max(extent.high - extent.low - LOWER - 2, 1) * KINDS;
  const logs = read.map((one) => logsOf(marking, one, extent));
  const likelyIf = (story: Story, form: number): number => {
    const total = new Float64Array(cells);
    read.forEach(({ day }, d) => addShifted(total, logs[d]![form]!, shiftOf(story, until - day)));
    return logMean(total, (i) => CURVE_KINDS[i % KINDS]!.weight);
  };
  const likely = (gain: number): number => {
    const all = GAINS_BEFORE.flatMap((before) => FORMS.map((_, form) => likelyIf({ gain, before }, form)));
    return logMean(all, () => 1 / all.length);
  };
  return likely(0) - likely(SLOW_GAIN);
}
