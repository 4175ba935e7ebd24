import type { Command } from 'commander';
import type { FullScreenOptions } from '../commands/full-screen.ts';
import { openFullScreen } from './full-screen.ts';

interface PracticeOptions extends FullScreenOptions {
  readonly articulation?: string;
  readonly key?: string;
  readonly tempo?: string;
}

/** `standside practice EXERCISE`: one line on the stand at once. */
export function addPracticeCommand(program: Command): void {
  program
    .command('practice')
    .description('put one exercise on the stand, at the tempo where it was left')
    .argument('<exercise>', "its short name; 'standside exercises' lists them")
    .option('--articulation <name>', 'slurred, single, double, … (default: the first of the exercise)')
    .option('--key <key>', 'any written key, like Bb, F# or "A minor" (default: the first of the exercise)')
    .option('--tempo <bpm>', 'start at this tempo instead of where the line was left')
    .option('--silent', 'no sound, only the visible beat')
    .option('--lines', 'no picture: one short line for each thing that happens')
    .action(async (exercise: string, _: unknown, command: Command) => {
      const options = command.optsWithGlobals<PracticeOptions>();
      const { articulation = null, key = null, tempo = null } = options;
      await openFullScreen(options, { exercise, articulation, key, tempo });
    });
}
