import { dayPlus } from '../../common/days.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import {
  type Days,
  type Student,
  type Unread,
  byNeed,
  isUnread,
  studentOfJournal,
  studentOfReport,
} from '../../review/students/student.ts';
import { HEADS, cellsOf, studentsPage } from '../../review/students/students-page.ts';
import { harmless } from '../../common/harmless-text.ts';
import { stampOf, systemClock } from '../../runtime/clock.ts';
import { routinesOf } from '../../runtime/files/routine-cache.ts';
import { exercisesOf } from '../../runtime/files/routine-finder.ts';
import { writePage } from '../files/new-page.ts';
import { routineNamed } from '../files/routine-by-name.ts';
import { type StudentFile, studentFiles, studentText } from '../files/students-folder.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { numberOption, wholeNumber } from '../options/number-option.ts';
import { plural } from '../output/plural.ts';
import { printJson, remark } from '../output/print.ts';
import { textTable } from '../output/text-table.ts';

export interface StudentsOptions extends DataOption {
  readonly weeks: string;
  readonly for?: string;
  readonly json?: boolean;
  readonly out?: string;
  readonly force?: boolean;
}

const MOST_WEEKS = 520;

/** Titles and targets: of the routine that was given out, and of those that the teacher has. */
async function exercisesFor({ for: name, ...options }: StudentsOptions): Promise<ReadonlyMap<string, Exercise>> {
  const folder = dataFolderOf(options);
  const own = [...exercisesOf(await routinesOf(folder.path))].map(([id, { exercise }]) => [id, exercise] as const);
  const given = name === undefined ? [] : (await routineNamed(folder, name)).exercises;
  return new Map([...own, ...given.map((exercise) => [exercise.id, exercise] as const)]);
}

function read(file: StudentFile, days: Days, exercises: ReadonlyMap<string, Exercise>): Student | Unread {
  const { name, path, is } = file;
  const found = studentText(path);
  if ('reason' in found) return { name, reason: found.reason };
  return is === 'journal'
    ? studentOfJournal(name, found.text, days, exercises)
    : studentOfReport(name, found.text, days.to);
}

function remarks(known: readonly Student[], unread: readonly Unread[]): void {
  for (const { name, reason } of unread) remark(`${harmless(name, 80)} is left out: ${reason}.`);
  for (const { name, leftOut } of known)
    if (leftOut > 0) remark(`${harmless(name, 80)}: ${plural(leftOut, 'line')} left out, being no entries.`);
}

const shown = (known: readonly Student[]): string =>
  textTable(
    HEADS.map((head, index) => ({ head: head.toLowerCase(), right: index > 2 })),
    known.map(cellsOf),
  );

/** Exit code 1 where none of the files could be used. */
export async function students(folder: string, options: StudentsOptions): Promise<void> {
  const weeks = numberOption(options.weeks, { option: 'weeks', ...wholeNumber(1, MOST_WEEKS) });
  const to = stampOf(systemClock).day;
  const days = { from: dayPlus(to, 1 - 7 * weeks), to };
  const exercises = await exercisesFor(options);
  const all = studentFiles(folder).map((file) => read(file, days, exercises));
  const unread = all.filter(isUnread);
  const known = byNeed(all.filter((one): one is Student => !isUnread(one)));
  remarks(known, unread);
  if (known.length === 0) process.exitCode = 1;
  if (options.out !== undefined) writePage(options.out, studentsPage(known, unread, to), options.force ?? false);
  if (options.json) printJson({ ...days, students: known, leftOut: unread });
  else if (known.length > 0) process.stdout.write(shown(known));
}
