/** The weeks, the lines and the coverage in one; pure. */
import type { Marked } from './line-with-marks.ts';
import type { Exercise } from '../plan/routine/exercise.ts';
import { type Coverage, coverageOf } from './coverage.ts';
import { type LineWeeks, linesOver } from './line-weeks.ts';
import { type Week, weeksOf } from './calendar-weeks.ts';

export interface Report {
  readonly today: string;
  readonly weeks: readonly Week[];
  /** Lines marked in these weeks, the most played first. */
  readonly lines: readonly LineWeeks[];
  /** Of the exercises that were ever marked, in the routine's order. */
  readonly coverage: readonly Coverage[];
}

/**
 * @param today the player's own day, 'YYYY-MM-DD'
 * @param weeks how many, the one with `today` included
 */
export function reportOf(marked: Marked, exercises: readonly Exercise[], today: string, weeks: number): Report {
  return {
    today,
    weeks: weeksOf(marked, today, weeks),
    lines: linesOver(marked, today, weeks),
    coverage: exercises.map((exercise) => coverageOf(marked, exercise, today)).filter(({ played }) => played > 0),
  };
}
