import type { Command } from 'commander';
import type { WeeksOptions } from '../commands/weeks.ts';

/** `standside weeks`: the weeks, and what was covered. */
export function addWeeksCommand(program: Command): void {
  program
    .command('weeks')
    .description(
      'print the weeks: share of clean repetitions, how the lines went, which keys and articulations were covered',
    )
    .option('--weeks <n>', 'how many weeks back', '12')
    .option('--exercise <id>', 'show the coverage of this exercise only')
    .option('--json', 'print JSON')
    .action(async (_: unknown, command: Command) => {
      const { weeks } = await import('../commands/weeks.ts');
      await weeks(command.optsWithGlobals<WeeksOptions>());
    });
}
