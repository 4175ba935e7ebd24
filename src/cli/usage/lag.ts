import type { Command } from 'commander';
import type { LagOptions } from '../commands/lag.ts';

/** `standside lag`: how late the click reaches the player, for the picture to wait as long. */
export function addLagCommand(program: Command): void {
  program
    .command('lag')
    .description('measure how late the click reaches you: tap along, and get the line for the settings file')
    .option('--json', 'print JSON')
    .action(async (_: unknown, command: Command) => {
      const { lag } = await import('../commands/lag.ts');
      await lag(command.optsWithGlobals<LagOptions>());
    });
}
