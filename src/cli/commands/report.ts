import { dayPlus, daysBetween } from '../../common/days.ts';
import { readJournal } from '../../journal/journal-file.ts';
import { badLinesSentence } from '../../journal/journal-store.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { type ReportAsked, practiceReport } from '../../review/report/practice-report.ts';
import { reportPage } from '../../review/report/report-page.ts';
import { routineAnswered } from '../../review/report/routine-answered.ts';
import { stampOf, systemClock } from '../../runtime/clock.ts';
import type { DataFolder } from '../../runtime/files/data-folder.ts';
import { routinesOf } from '../../runtime/files/routine-cache.ts';
import { exercisesOf } from '../../runtime/files/routine-finder.ts';
import { readingProgress } from '../../runtime/screen/reading-progress.ts';
import { Trouble } from '../../common/trouble.ts';
import type { Routine } from '../../plan/routine/routine.ts';
import { givePage } from '../files/new-page.ts';
import { orTrouble } from '../files/or-trouble.ts';
import { playersSettings } from '../files/players-settings.ts';
import { routineNamed } from '../files/routine-by-name.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { dayOption } from '../options/day-option.ts';
import { remark } from '../output/print.ts';

export interface ReportOptions extends DataOption {
  readonly from?: string;
  readonly to?: string;
  readonly out?: string;
  readonly force?: boolean;
  readonly withNotes?: boolean;
  readonly withTension?: boolean;
  readonly for?: string;
}

/** Twelve weeks with the last day included. */
const USUAL_DAYS = 84;
/** Ten years. */
const MOST_DAYS = 3660;

function askedOf(options: ReportOptions, today: string): ReportAsked {
  const to = dayOption(options.to, 'to', today);
  const from = dayOption(options.from, 'from', dayPlus(to, 1 - USUAL_DAYS));
  if (from > to) throw new Trouble(`--from is ${from} and --to ${to}; the first day must not be after the last.`, 2);
  if (daysBetween(from, to) > MOST_DAYS) throw new Trouble(`From ${from} to ${to} are more than ten years.`, 2);
  return { from, to, notes: options.withNotes ?? false, tension: options.withTension ?? false };
}

/** The player's exercises, and those of the routine that is answered where the player has none of that name. */
async function exercisesFor(folder: DataFolder, routine: Routine | null): Promise<ReadonlyMap<string, Exercise>> {
  const own = [...exercisesOf(await routinesOf(folder.path))].map(([id, { exercise }]) => [id, exercise] as const);
  const asked = (routine?.exercises ?? []).map((exercise) => [exercise.id, exercise] as const);
  return new Map([...asked, ...own]);
}

export async function report(options: ReportOptions): Promise<void> {
  const folder = dataFolderOf(options);
  const { dayStart } = await playersSettings(folder);
  const asked = askedOf(options, stampOf(systemClock, dayStart).day);
  const routine = options.for === undefined ? null : await routineNamed(folder, options.for);
  const exercises = await exercisesFor(folder, routine);
  const progress = readingProgress(process.stderr, () => performance.now());
  const { entries, bad } = orTrouble(readJournal(folder.journal, undefined, progress));
  const sentence = badLinesSentence(folder.journal, bad);
  if (sentence) remark(sentence);
  const practice = practiceReport(entries, exercises, asked);
  const answered = routine && { title: routine.title, points: routineAnswered(routine, practice) };
  givePage(reportPage(practice, answered), options);
}
