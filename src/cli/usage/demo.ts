import { type Command, Option } from 'commander';
import type { FullScreenOptions } from '../commands/full-screen.ts';
import { openFullScreen } from './full-screen.ts';

interface DemoOptions extends FullScreenOptions {
  readonly seed: string;
}

/** `standside demo`: every screen with something on it, and nothing of the player's touched. */
export function addDemoCommand(program: Command): void {
  program
    .command('demo')
    .description('look around in half a year of an invented cornet player; nothing of yours is read or changed')
    .option('--seed <n>', 'another half-year: any whole number', '1')
    .option('--silent', 'no sound, only the visible beat')
    .option('--lines', 'no picture: one short line for each thing that happens')
    .addOption(new Option('--clock-rate <n>', 'run the clock of the blocks n times as fast, for trying out').hideHelp())
    .action(async (_: unknown, command: Command) => {
      const options = command.optsWithGlobals<DemoOptions>();
      const { demoFolder } = await import('../commands/demo.ts');
      await openFullScreen({ ...options, data: await demoFolder(options.seed) }, null);
    });
}
