import type { Command } from 'commander';
import type { ProgramOptions } from '../../runtime/open-program.ts';

interface Options {
  readonly articulation?: string;
  readonly key?: string;
  readonly tempo?: string;
  readonly silent?: boolean;
  readonly data?: string;
}

/** Everything is closed by then: what a native library or a lost terminal still holds open must not keep the process. */
async function fullScreen(options: ProgramOptions): Promise<never> {
  const { openFullScreen } = await import('../full-screen.ts');
  process.exit(await openFullScreen(options));
}

/** `standside practice EXERCISE`: one line on the stand at once. */
export function addPracticeCommand(program: Command): void {
  program
    .command('practice')
    .description('put one exercise on the stand, at the tempo where it was left')
    .argument('<exercise>', "its short name; 'standside exercises' lists them")
    .option('--articulation <name>', 'slurred, single, double, … (default: the first of the exercise)')
    .option('--key <key>', 'written key, like C, Bb or F# (default: the first of the exercise)')
    .option('--tempo <bpm>', 'start at this tempo instead of where the line was left')
    .option('--silent', 'no sound, only the visible beat')
    .action(async (exercise: string, _: unknown, command: Command) => {
      const { articulation, key, tempo, silent, data } = command.optsWithGlobals<Options>();
      const line = { exercise, articulation: articulation ?? null, key: key ?? null, tempo: tempo ?? null };
      await fullScreen({ data, silent: silent ?? false, line });
    });
}

/** Plain `standside`: the Today screen. */
export function addTodayAction(program: Command): void {
  program.option('--silent', 'no sound, only the visible beat').action(async () => {
    const { silent, data } = program.opts<Options>();
    await fullScreen({ data, silent: silent ?? false, line: null });
  });
}
