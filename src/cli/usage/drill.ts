import type { Command } from 'commander';
import type { DrillOptions } from '../commands/drill.ts';
import { withDrillOptions } from '../options/drill-options.ts';

/** `standside drill EXERCISE`: what is to be played, note by note. */
export function addDrillCommand(program: Command): void {
  withDrillOptions(program.command('drill'))
    .description('print an exercise note by note: names, MIDI numbers, onsets, lengths and syllables')
    .option('--steps', 'print the steps into which a teacher would split it instead, with their tempos')
    .option('--json', 'print JSON')
    .action(async (exercise: string, _: unknown, command: Command) => {
      const { drill } = await import('../commands/drill.ts');
      await drill(exercise, command.optsWithGlobals<DrillOptions>());
    });
}
