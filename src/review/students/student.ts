/** One student from a journal or a report, and who of many needs what; pure. */
import type { Exercise } from '../../plan/routine/exercise.ts';
import { type ReportAsked, practiceReport } from '../report/practice-report.ts';
import { type Need, type StudentSummary, needsOf, summaryOf } from '../report/student-summary.ts';
import { recentEntries } from './recent-entries.ts';
import { summaryIn } from './report-summary.ts';

export interface Student {
  readonly name: string;
  readonly summary: StudentSummary;
  /** The most pressing first. */
  readonly needs: readonly Need[];
  /** Lines of the journal that are no entries. */
  readonly leftOut: number;
}

/** A file that tells of nobody, and why. */
export interface Unread {
  readonly name: string;
  readonly reason: string;
}

export type Days = Pick<ReportAsked, 'from' | 'to'>;

/** One student, by a journal's text. */
export function studentOfJournal(
  name: string,
  text: string,
  { from, to }: Days,
  exercises: ReadonlyMap<string, Exercise>,
): Student | Unread {
  const { entries, lines, bad } = recentEntries(text, from);
  if (lines > 0 && bad === lines) return { name, reason: 'no line of it is an entry' };
  const asked = { from, to, notes: false, tension: false, estimates: false };
  const summary = summaryOf(practiceReport(entries, exercises, asked));
  return { name, summary, needs: needsOf(summary, to), leftOut: bad };
}

/** One student, by a report's page. Its days are the page's own. */
export function studentOfReport(name: string, page: string, today: string): Student | Unread {
  const summary = summaryIn(page);
  if (summary === null) return { name, reason: 'it is no report of standside, or not whole' };
  return { name, summary, needs: needsOf(summary, today), leftOut: 0 };
}

export const isUnread = (one: Student | Unread): one is Unread => 'reason' in one;

const weightOf = ({ needs }: Student): number => needs[0]?.weight ?? 0;

/** Who needs somebody most comes first. */
export const byNeed = (students: readonly Student[]): readonly Student[] =>
  [...students].sort((a, b) => weightOf(b) - weightOf(a) || (a.name < b.name ? -1 : 1));
