/** Practice week by week; pure. */
import { dateOf, mondayOf } from '../common/days.ts';
import type { Marked } from './line-with-marks.ts';

import { type MarkCounts, NO_MARKS, type Tally, cleanShare, summed } from '../ladder/speed/line-history.ts';

export interface Week {
  /** Its Monday, 'YYYY-MM-DD'. */
  readonly from: string;
  readonly counts: MarkCounts;
  /** Share of clean repetitions, 0 to 1; null in a week without any. */
  readonly clean: number | null;
  /** On how many days something was marked. */
  readonly days: number;
  /** Lines whose best was held in this week and still stands. */
  readonly bests: number;
}

/** The Mondays of the last weeks up to a day's own, the earliest first. */
export const lastMondays = (today: string, weeks: number): readonly number[] =>
  Array.from({ length: weeks }, (_, index) => mondayOf(today) - 7 * (weeks - 1 - index));

/** Tallies by the Monday of their week. */
export function byWeek(tallies: Iterable<Tally>): ReadonlyMap<number, readonly Tally[]> {
  const weeks = new Map<number, Tally[]>();
  for (const tally of tallies) {
    const monday = mondayOf(tally.day);
    const week = weeks.get(monday);
    if (week) week.push(tally);
    else weeks.set(monday, [tally]);
  }
  return weeks;
}

function weekOf(monday: number, tallies: readonly Tally[], bestDays: readonly string[]): Week {
  const counts = tallies.reduce<MarkCounts>(summed, NO_MARKS);
  return {
    from: dateOf(monday),
    counts,
    clean: cleanShare(counts),
    days: new Set(tallies.map(({ day }) => day)).size,
    bests: bestDays.filter((day) => mondayOf(day) === monday).length,
  };
}

/**
 * The last weeks up to the one that holds `today`, the earliest first; empty weeks are there too.
 * @param today the player's own day, 'YYYY-MM-DD'
 */
export function weeksOf(marked: Marked, today: string, weeks: number): readonly Week[] {
  const states = [...marked.lines.values()];
  const tallies = byWeek(states.flatMap((state) => state.tallies));
  const bestDays = states.flatMap(({ best }) => (best ? [best.day] : []));
  return lastMondays(today, weeks).map((monday) => weekOf(monday, tallies.get(monday) ?? [], bestDays));
}
