import type { Command } from 'commander';
import type { TapOptions } from '../commands/tap.ts';

/** `standside tap`: how late the click reaches the player, for the picture to wait as long. */
export function addTapCommand(program: Command): void {
  program
    .command('tap')
    .description('measure how late the click reaches you: tap along, and get the line for the settings file')
    .option('--json', 'print JSON')
    .action(async (_: unknown, command: Command) => {
      const { tap } = await import('../commands/tap.ts');
      await tap(command.optsWithGlobals<TapOptions>());
    });
}
