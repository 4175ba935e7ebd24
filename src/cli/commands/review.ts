import type { Command } from 'commander';
import { askedFolder, printJson, savedFold } from '../saved-data.ts';

const MOST_WEEKS = 520;

interface Options {
  readonly weeks: string;
  readonly exercise?: string;
  readonly json?: boolean;
}

async function weeksAsked(text: string): Promise<number> {
  const weeks = Number(text);
  if (Number.isInteger(weeks) && weeks >= 1 && weeks <= MOST_WEEKS) return weeks;
  const { Trouble } = await import('../../common/trouble.ts');
  const { shown } = await import('../../plan/file/place-in-file.ts');
  throw new Trouble(`--weeks is ${shown(text)}; give a whole number from 1 to ${MOST_WEEKS}.`);
}

async function exercisesAsked(folder: string, id: string | undefined) {
  const { exercisesOf, findExercise } = await import('../../runtime/files/routine-finder.ts');
  const { routinesOf } = await import('../../runtime/files/routine-cache.ts');
  const loaded = await routinesOf(folder);
  if (id !== undefined) return [findExercise(loaded, id).exercise];
  return [...exercisesOf(loaded).values()].map(({ exercise }) => exercise);
}

async function review({ weeks: text, exercise, json }: Options, command: Command): Promise<void> {
  const weeks = await weeksAsked(text);
  const folder = await askedFolder(command);
  const exercises = await exercisesAsked(folder.path, exercise);
  const [{ readSettings }, { stampOf, systemClock }, { reportOf }, { drawReport }, { harmless }] = await Promise.all([
    import('../../runtime/files/settings.ts'),
    import('../../runtime/clock.ts'),
    import('../../review/weeks-report.ts'),
    import('../../review/report-text.ts'),
    import('../../common/harmless-text.ts'),
  ]);
  const { dayStart } = (await readSettings(folder.path)).settings;
  const report = reportOf(await savedFold(command), exercises, stampOf(systemClock, dayStart).day, weeks);
  if (json) return printJson(report);
  const lines = drawReport(report, process.stdout.columns ?? 80).map((line) => harmless(line, 400));
  process.stdout.write(`${lines.join('\n')}\n`);
}

/** `standside review`: the weeks, and what was covered. */
export function addReviewCommand(program: Command): void {
  program
    .command('review')
    .description(
      'print the weeks: share of clean repetitions, how the lines went, which keys and articulations were covered',
    )
    .option('--weeks <n>', 'how many weeks back', '12')
    .option('--exercise <id>', 'show the coverage of this exercise only')
    .option('--json', 'print JSON')
    .action(review);
}
