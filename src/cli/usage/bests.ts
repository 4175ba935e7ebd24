import type { Command } from 'commander';
import type { BestsOptions } from '../commands/bests.ts';

/** `standside bests`: the highest tempo that each line has held. */
export function addBestsCommand(program: Command): void {
  program
    .command('bests')
    .description(
      'print the best of every line: beats per minute, notes per second, the day it was held, and what is known',
    )
    .option('--json', 'print JSON with everything: safe tempo with its interval, target, trend')
    .option('--csv', 'print comma-separated values with the same')
    .action(async (_: unknown, command: Command) => {
      const { bests } = await import('../commands/bests.ts');
      await bests(command.optsWithGlobals<BestsOptions>());
    });
}
