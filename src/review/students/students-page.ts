/** Many students on one page, who needs what; pure. */
import { table, words } from '../report/markup.ts';
import { page } from '../report/report-page.ts';
import type { Student, Unread } from './student.ts';

/** Share of clean repetitions over all lines; null without a mark. */
export function cleanOf({ summary }: Student): number | null {
  const marks = summary.lines.reduce((sum, line) => sum + line.marks, 0);
  return marks === 0 ? null : summary.lines.reduce((sum, line) => sum + line.clean * line.marks, 0) / marks;
}

const percent = (share: number | null): string => (share === null ? '–' : `${Math.round(share * 100)} %`);

/** What stands in a row about one student, on screen and page alike. */
export const cellsOf = (student: Student): readonly string[] => {
  const { name, summary, needs } = student;
  return [
    name,
    needs[0]?.said ?? 'nothing stands out',
    summary.lastDay ?? '–',
    `${summary.days}`,
    `${summary.minutes}`,
    `${summary.marks}`,
    percent(cleanOf(student)),
  ];
};

export const HEADS = ['Student', 'Needs', 'Last played', 'Days', 'Minutes', 'Marks', 'Clean'] as const;

const others = (students: readonly Student[]): string => {
  const more = students.filter(({ needs }) => needs.length > 1);
  if (more.length === 0) return '';
  const items = more.map(({ name, needs }) => [
    words(name),
    words(
      needs
        .slice(1, 4)
        .map(({ said }) => said)
        .join('; '),
      300,
    ),
  ]);
  return `<h2>And besides</h2>${table('What else they need', ['Student', 'Needs'], items)}`;
};

const unreadPart = (unread: readonly Unread[]): string =>
  unread.length === 0
    ? ''
    : `<h2>Left out</h2>${table(
        'Files that could not be used',
        ['File', 'Why'],
        unread.map(({ name, reason }) => [words(name), words(reason, 200)]),
      )}`;

/** @param today 'YYYY-MM-DD' */
export function studentsPage(students: readonly Student[], unread: readonly Unread[], today: string): string {
  const rows = students.map((student) => cellsOf(student).map((cell) => words(cell, 200)));
  const body =
    `<h1>Students on ${words(today)}</h1><p class="soft">Who needs somebody most comes first: who has not played for ` +
    `a week, then lines of which fewer than 60 % are clean.</p>` +
    table('Who needs what', HEADS, rows) +
    others(students) +
    unreadPart(unread);
  return page(`Students on ${today}`, body);
}
