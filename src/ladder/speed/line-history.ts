import type { Bpm } from '../../common/units.ts';
import type { Line } from '../line.ts';
import type { Climb } from '../rule/climb.ts';
import type { Mark } from '../rule/ladder-rule.ts';

export type MarkCounts = Readonly<Record<Mark, number>>;

/** The marks of one day at one tempo. */
export interface Tally extends MarkCounts {
  readonly day: string;
  readonly bpm: Bpm;
}

/** What is known of a line from all its marks; the journal folds to this. */
export interface LineHistory {
  readonly line: Line;
  /** The tempo of the next repetition, and the runs at it. */
  readonly bpm: Bpm;
  readonly cleanRun: number;
  readonly missedRun: number;
  readonly tenseRun?: number;
  /** The highest rung held, and the day, 'YYYY-MM-DD', on which it was. */
  readonly best: { readonly bpm: Bpm; readonly day: string } | null;
  /** Day of the newest mark; empty before the first. */
  readonly lastDay: string;
  /** Days rise. */
  readonly tallies: readonly Tally[];
  /** Where all keys share the line: the marks of each key that sounded. */
  readonly keys?: Readonly<Record<string, MarkCounts>>;
}

export const withMark = (counts: MarkCounts, mark: Mark): MarkCounts => ({ ...counts, [mark]: counts[mark] + 1 });

export const climbOf = ({ bpm, cleanRun, missedRun, tenseRun, best }: LineHistory): Climb => ({
  bpm,
  cleanRun,
  missedRun,
  ...(tenseRun === undefined ? {} : { tenseRun }),
  best: best?.bpm ?? null,
});

export const NO_MARKS: MarkCounts = { clean: 0, tense: 0, missed: 0 };

export const summed = (a: MarkCounts, b: MarkCounts): MarkCounts => ({
  clean: a.clean + b.clean,
  tense: a.tense + b.tense,
  missed: a.missed + b.missed,
});

/** All marks of a line, or those of one day. */
export const countsOf = ({ tallies }: LineHistory, day?: string): MarkCounts =>
  tallies.filter((tally) => day === undefined || tally.day === day).reduce<MarkCounts>(summed, NO_MARKS);

export const repetitions = (counts: MarkCounts): number => counts.clean + counts.tense + counts.missed;

/** Share of clean repetitions, 0 to 1; null before the first. */
export const cleanShare = (counts: MarkCounts): number | null =>
  repetitions(counts) === 0 ? null : counts.clean / repetitions(counts);
