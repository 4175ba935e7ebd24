import { type Command, Option } from 'commander';
import type { FullScreenOptions } from '../commands/full-screen.ts';
import { openFullScreen } from './full-screen.ts';

/** Plain `standside`: the Today screen. */
export function addTodayAction(program: Command): void {
  program
    .option('--silent', 'no sound, only the visible beat')
    .option('--lines', 'no picture: one short line for each thing that happens')
    .addOption(new Option('--clock-rate <n>', 'run the clock of the blocks n times as fast, for trying out').hideHelp())
    .action(async (options: FullScreenOptions) => {
      await openFullScreen(options, null);
    });
}
