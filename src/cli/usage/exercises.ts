import type { Command } from 'commander';
import type { ExercisesOptions } from '../commands/exercises.ts';

/** `standside exercises`: everything that can be practised. */
export function addExercisesCommand(program: Command): void {
  program
    .command('exercises')
    .description('list every exercise of the routines, with its keys, articulations and tempos')
    .option('--json', 'print JSON')
    .action(async (_: unknown, command: Command) => {
      const { exercises } = await import('../commands/exercises.ts');
      await exercises(command.optsWithGlobals<ExercisesOptions>());
    });
}
