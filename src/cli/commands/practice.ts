import { type Command, Option } from 'commander';
import type { ProgramOptions } from '../../runtime/open-program.ts';

interface Options {
  readonly articulation?: string;
  readonly key?: string;
  readonly tempo?: string;
  readonly silent?: boolean;
  /** For looking at a whole sitting in a minute. */
  readonly clockRate?: string;
  readonly data?: string;
}

/**
 * Everything is closed by then: what a native library or a lost terminal still holds open must not keep the process.
 */
async function fullScreen({ data, silent, clockRate }: Options, line: ProgramOptions['line']): Promise<never> {
  // With `fetch` at hand, Ink's layout library fetches its own code from a data address and loads an HTTP client for
  // it, a tenth of the start; without, it decodes it in place. This program goes to no network.
  Reflect.deleteProperty(globalThis, 'fetch');
  const [{ openFullScreen }, { fasterClock, systemClock }] = await Promise.all([
    import('../full-screen.ts'),
    import('../../runtime/clock.ts'),
  ]);
  const rate = Number(clockRate ?? 1);
  const clock = rate > 1 && rate <= 1000 ? fasterClock(rate) : systemClock;
  process.exit(await openFullScreen({ data, silent: silent ?? false, line, clock }));
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
    .action(async (exercise: string, _: unknown, command: Command) => {
      const options = command.optsWithGlobals<Options>();
      const { articulation, key, tempo } = options;
      const line = { exercise, articulation: articulation ?? null, key: key ?? null, tempo: tempo ?? null };
      await fullScreen(options, line);
    });
}

/** Plain `standside`: the Today screen. */
export function addTodayAction(program: Command): void {
  program
    .option('--silent', 'no sound, only the visible beat')
    .addOption(new Option('--clock-rate <n>', 'run the clock of the blocks n times as fast, for trying out').hideHelp())
    .action(async () => {
      await fullScreen(program.opts<Options>(), null);
    });
}
