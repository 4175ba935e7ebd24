import { bpmText } from '../../music/time/tempo-text.ts';
import type { Command } from 'commander';
import type { Exercise } from '../../plan/routine/exercise.ts';

/** The names of a long list, shortened to what a line holds. */
function few(words: readonly string[], most: number): string {
  const shown = words.slice(0, most).join(', ');
  return words.length > most ? `${shown} and ${words.length - most} more` : shown;
}

/** `exerciseLines` prints each exercise in two lines: what it is called, and what may be asked of it. */
export function exerciseLines(exercise: Exercise): readonly string[] {
  const { id, title, kind, ladder, keys, articulations, work = 'ladder' } = exercise;
  const tempo =
    work === 'ladder'
      ? `${bpmText(ladder.start)} to ${bpmText(ladder.target)}`
      : work === 'breaths'
        ? `${exercise.breaths ?? ''} breaths`
        : 'by the clock';
  return [
    `${id.padEnd(24)} ${title} (${kind})`,
    `${' '.repeat(24)} ${tempo} · ${few(articulations, 4)} · ${few(keys, 6)}`,
  ];
}

export function addExercisesCommand(program: Command): void {
  program
    .command('exercises')
    .description('list every exercise of the routines, with its keys, articulations and tempos')
    .option('--json', 'print JSON')
    .action(async (options: { json?: boolean }, command: Command) => {
      const { whereData } = await import('../../runtime/files/data-folder.ts');
      const { exercisesOf } = await import('../../runtime/files/routine-finder.ts');
      const { routinesOf } = await import('../../runtime/files/routine-cache.ts');
      const { troubleLine } = await import('../../plan/file/place-in-file.ts');
      const { data } = command.optsWithGlobals<{ data?: string }>();
      const loaded = await routinesOf(whereData(data));
      for (const trouble of loaded.troubles) process.stderr.write(`${troubleLine(trouble)}\n`);
      const found = [...exercisesOf(loaded).values()];
      if (options.json) {
        process.stdout.write(
          `${JSON.stringify(
            found.map(({ exercise, routine }) => ({ ...exercise, routine: routine.id })),
            null,
            2,
          )}\n`,
        );
        return;
      }
      process.stdout.write(`${found.flatMap(({ exercise }) => exerciseLines(exercise)).join('\n')}\n`);
    });
}
