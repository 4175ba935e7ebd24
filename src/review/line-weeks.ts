/** How one line went over days and weeks; pure. */
import { mondayOf } from '../common/days.ts';
import {
  type LineHistory,
  type MarkCounts,
  NO_MARKS,
  type Tally,
  cleanShare,
  repetitions,
  summed,
} from '../ladder/speed/line-history.ts';
import type { Marked } from './line-with-marks.ts';
import type { Bpm } from '../common/units.ts';
import { byWeek, lastMondays } from './calendar-weeks.ts';

/** One day of a line. */
export interface LineDay {
  readonly day: string;
  readonly counts: MarkCounts;
  readonly clean: number | null;
  /** Lowest and highest tempo played. */
  readonly low: Bpm;
  readonly high: Bpm;
  /** Highest tempo that was clean at least once; null if none was. */
  readonly highestClean: Bpm | null;
}

function highestClean(tallies: readonly Tally[]): Bpm | null {
  const clean = tallies.filter((tally) => tally.clean > 0).map(({ bpm }) => bpm);
  return clean.length === 0 ? null : Math.max(...clean);
}

function dayOf(day: string, tallies: readonly Tally[]): LineDay {
  const counts = tallies.reduce<MarkCounts>(summed, NO_MARKS);
  const tempos = tallies.map(({ bpm }) => bpm);
  return {
    day,
    counts,
    clean: cleanShare(counts),
    low: Math.min(...tempos),
    high: Math.max(...tempos),
    highestClean: highestClean(tallies),
  };
}

/** Every day on which a line was marked, the earliest first. */
export function seriesOf(state: LineHistory): readonly LineDay[] {
  const days = new Map<string, Tally[]>();
  for (const tally of state.tallies) days.set(tally.day, [...(days.get(tally.day) ?? []), tally]);
  return [...days].sort(([a], [b]) => (a < b ? -1 : 1)).map(([day, tallies]) => dayOf(day, tallies));
}

/** A line over the last weeks. */
export interface LineWeeks {
  readonly exercise: string;
  readonly articulation: string;
  readonly key: string;
  /** Marks in these weeks. */
  readonly repetitions: number;
  readonly clean: number | null;
  /** For each week the highest tempo that was clean at least once; null in a week without one. */
  readonly highestClean: readonly (Bpm | null)[];
  readonly best: Bpm | null;
}

function lineWeeks(state: LineHistory, mondays: readonly number[]): LineWeeks {
  const weeks = byWeek(state.tallies.filter(({ day }) => mondays.includes(mondayOf(day))));
  const counts = [...weeks.values()].flat().reduce<MarkCounts>(summed, NO_MARKS);
  return {
    ...state.line,
    repetitions: repetitions(counts),
    clean: cleanShare(counts),
    highestClean: mondays.map((monday) => highestClean(weeks.get(monday) ?? [])),
    best: state.best?.bpm ?? null,
  };
}

/** The lines marked in the last weeks, the most played first. */
export function linesOver(marked: Marked, today: string, weeks: number): readonly LineWeeks[] {
  const mondays = lastMondays(today, weeks);
  return [...marked.lines.values()]
    .map((state) => lineWeeks(state, mondays))
    .filter((line) => line.repetitions > 0)
    .sort((a, b) => b.repetitions - a.repetitions);
}
