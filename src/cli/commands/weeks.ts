import { harmless } from '../../common/harmless-text.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { drawReport } from '../../review/report-text.ts';
import { reportOf } from '../../review/weeks-report.ts';
import { stampOf, systemClock } from '../../runtime/clock.ts';
import type { DataFolder } from '../../runtime/files/data-folder.ts';
import { routinesOf } from '../../runtime/files/routine-cache.ts';
import { exercisesOf } from '../../runtime/files/routine-finder.ts';
import { exerciseNamed } from '../files/exercise-by-name.ts';
import { journalSoFar } from '../files/journal-so-far.ts';
import { playersSettings } from '../files/players-settings.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { numberOption, wholeNumber } from '../options/number-option.ts';
import { printJson, printLines } from '../output/print.ts';

export interface WeeksOptions extends DataOption {
  readonly weeks: string;
  readonly exercise?: string;
  readonly json?: boolean;
}

/** Ten years. */
const MOST_WEEKS = 520;

const USUAL_COLUMNS = 80;

/** The one that was asked for, or all of them. */
async function exercisesFor(folder: DataFolder, name: string | undefined): Promise<readonly Exercise[]> {
  if (name !== undefined) return [(await exerciseNamed(folder, name)).exercise];
  return [...exercisesOf(await routinesOf(folder.path)).values()].map(({ exercise }) => exercise);
}

export async function weeks(options: WeeksOptions): Promise<void> {
  const count = numberOption(options.weeks, { option: 'weeks', ...wholeNumber(1, MOST_WEEKS) });
  const folder = dataFolderOf(options);
  const exercises = await exercisesFor(folder, options.exercise);
  const { dayStart } = await playersSettings(folder);
  const { day } = stampOf(systemClock, dayStart);
  const report = reportOf(journalSoFar(folder), exercises, day, count);
  if (options.json) return printJson(report);
  printLines(drawReport(report, process.stdout.columns ?? USUAL_COLUMNS).map((line) => harmless(line, 400)));
}
