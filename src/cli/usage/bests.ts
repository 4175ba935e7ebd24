import type { Command } from 'commander';
import type { BestsOptions } from '../commands/bests.ts';

/** `standside bests`: the highest tempo that each line has held. */
export function addBestsCommand(program: Command): void {
  program
    .command('bests')
    .description('print the best of every line: beats per minute, notes per second, and the day it was held')
    .option('--json', 'print JSON, with what is known of the safe tempo of each line')
    .action(async (_: unknown, command: Command) => {
      const { bests } = await import('../commands/bests.ts');
      await bests(command.optsWithGlobals<BestsOptions>());
    });
}
