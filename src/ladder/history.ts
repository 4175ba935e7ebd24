import type { Climb } from './climb.ts';
import type { Mark } from './rule.ts';

export type MarkCounts = Readonly<Record<Mark, number>>;

/** What is known of a line from all its marks. */
export interface LineHistory {
  readonly climb: Climb;
  /** Day on which the best was held, 'YYYY-MM-DD'. */
  readonly bestDay: string | null;
  readonly lastDay: string | null;
  readonly counts: MarkCounts;
  /** Marks at each tempo, by the tempo written out ('96', '92.5'). */
  readonly byRung: Readonly<Record<string, MarkCounts>>;
}

export const NO_MARKS: MarkCounts = { clean: 0, tense: 0, missed: 0 };

export const repetitions = (counts: MarkCounts): number => counts.clean + counts.tense + counts.missed;

/** Share of clean repetitions, 0 to 1; null before the first. */
export const cleanShare = (counts: MarkCounts): number | null =>
  repetitions(counts) === 0 ? null : counts.clean / repetitions(counts);

export const withMark = (counts: MarkCounts, mark: Mark): MarkCounts => ({ ...counts, [mark]: counts[mark] + 1 });
