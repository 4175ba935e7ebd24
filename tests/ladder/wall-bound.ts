/**
 * How soon a standstill could be told at best: by somebody who knows the player's curve, the spread of the days' form,
 * the speed before, and the week in which the player stopped or did not. By the lemma of Neyman and Pearson no test
 * does better than the ratio of the two likelihoods.
 */
import { type DayNumber, dayNumber } from '../../src/common/days.ts';
import { type PlayerCurve, markChances } from '../../src/ladder/settling/player-curve.ts';
import type { Mark } from '../../src/ladder/rule/ladder-rule.ts';
import type { Tally } from '../../src/ladder/speed/line-history.ts';

const GAIN = 0.01;
const MARKS: readonly Mark[] = ['clean', 'tense', 'missed'];
/** Nine forms, half a standard deviation apart, weighed by the normal distribution. */
const FORMS = Array.from({ length: 9 }, (_, i) => (i - 4) / 2);
const WEIGHTS = FORMS.map((form) => Math.exp(-0.5 * form ** 2));

/** How likely a day's marks are, but for a constant, at a threshold; its form averaged over. */
function likely(curve: PlayerCurve, threshold: number, form: number, tallies: readonly Tally[]): number {
  const logs = FORMS.map((z) =>
    tallies.reduce((sum, tally) => {
      const chances = markChances({ ...curve, threshold: threshold * Math.exp(z * form) }, tally.bpm);
      return MARKS.reduce((all, mark) => all + tally[mark] * Math.log(Math.max(chances[mark], 1e-9)), sum);
    }, 0),
  );
  const most = Math.max(...logs);
  return most + Math.log(logs.reduce((sum, log, i) => sum + WEIGHTS[i]! * Math.exp(log - most), 0));
}

/** Of the player at the moment of stopping, or not: the curve, and the standard deviation of the days' form. */
export interface KnownPlayer {
  readonly curve: PlayerCurve;
  readonly form: number;
  readonly stopped: DayNumber;
}

/** After each week since: how much likelier standing still has become than 1 % a week, natural log. */
export function stillIfKnown(
  { curve, form, stopped }: KnownPlayer,
  tallies: readonly Tally[],
  weeks: number,
): readonly number[] {
  const speed = curve.threshold;
  const days = [...new Set(tallies.map(({ day }) => day))].filter((day) => dayNumber(day) >= stopped);
  const each = days.map((day) => {
    const of = tallies.filter((tally) => tally.day === day);
    const gained = speed * Math.exp((GAIN * (dayNumber(day) - stopped + 1)) / 7);
    return { day: dayNumber(day), log: likely(curve, speed, form, of) - likely(curve, gained, form, of) };
  });
  return Array.from({ length: weeks }, (_, week) =>
    each.filter(({ day }) => day < stopped + 7 * (week + 1)).reduce((sum, { log }) => sum + log, 0),
  );
}

/** The limit above which one of twenty of these lies. */
export const oneInTwenty = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length * 0.95)]!;
