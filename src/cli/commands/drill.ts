import type { Command } from 'commander';
import type { DrillWords } from '../../runtime/asked/drill-asked.ts';
import type { DrillReport } from '../drill-text.ts';

export interface DrillOptions extends DrillWords {
  readonly tempo?: string;
}

/** What `drill` and `write` have in common. */
export const withDrillOptions = (command: Command): Command =>
  command
    .argument('<exercise>', "its short name; 'standside exercises' lists them")
    .option('--key <key>', 'any written key, like Bb, F# or "A minor" (default: the first of the exercise)')
    .option(
      '--articulation <name>',
      'slurred, single, double, triple, "slur 2 tongue 2", … (default: the first of the exercise)',
    )
    .option('--instrument <name>', 'like cornet or eb-bass (default: that of the settings or the routine)')
    .option('--range <notes>', 'lowest and highest written note, like "F#3 to C6" (default: the instrument’s)')
    .option('--syllables <pair>', 't-k, d-g, or two of your own, like ta-ka')
    .option(
      '--fit <how>',
      'where it leaves the range: octave (nearest octave, bar by bar) or short (the bars that fit)',
    )
    .option('--tempo <bpm>', 'beats per minute (default: the exercise’s start)');

/** The drill with its tempo. Throws Trouble for every word that is wrong. */
export async function drillReport(
  exerciseId: string,
  options: DrillOptions,
  command: Command,
): Promise<DrillReport & { readonly title: string }> {
  const { findExercise } = await import('../../runtime/files/routine-finder.ts');
  const { routinesOf } = await import('../../runtime/files/routine-cache.ts');
  const { readSettings } = await import('../../runtime/files/settings.ts');
  const { tempoAsked } = await import('../../runtime/asked/line-asked.ts');
  const { drillAsked } = await import('../../runtime/asked/drill-asked.ts');
  const { lineRule } = await import('../../plan/rotation/multiple-tonguing-steps.ts');
  const { askedFolder } = await import('../saved-data.ts');
  const folder = await askedFolder(command);
  const { exercise, routine } = findExercise(await routinesOf(folder.path), exerciseId);
  const { settings } = await readSettings(folder.path);
  const drill = drillAsked(exercise, options, settings.instrument ?? routine.instrument ?? null, settings.syllables);
  const bpm =
    options.tempo === undefined ? lineRule(exercise, drill.articulation.name).start : tempoAsked(options.tempo);
  return { exercise: exercise.id, title: exercise.title, drill, bpm, a4: settings.a4 };
}

interface PrintOptions extends DrillOptions {
  readonly json?: boolean;
  readonly steps?: boolean;
}

/** The lines into which a teacher would split it, with their ladders. */
async function printSteps(exerciseId: string, options: PrintOptions, command: Command): Promise<void> {
  const { split } = await import('../../plan/rotation/multiple-tonguing-steps.ts');
  const { askedFolder } = await import('../saved-data.ts');
  const { findExercise } = await import('../../runtime/files/routine-finder.ts');
  const { routinesOf } = await import('../../runtime/files/routine-cache.ts');
  const { keyAsked } = await import('../../runtime/asked/drill-asked.ts');
  const { stepsText } = await import('../drill-text.ts');
  const { exercise } = findExercise(await routinesOf((await askedFolder(command)).path), exerciseId);
  const steps = split(exercise, keyAsked(options.key, exercise));
  process.stdout.write(options.json ? `${JSON.stringify(steps, null, 2)}\n` : stepsText(steps));
}

async function print(exercise: string, options: PrintOptions, command: Command): Promise<void> {
  if (options.steps) return printSteps(exercise, options, command);
  const report = await drillReport(exercise, options, command);
  const { drillJson, drillText } = await import('../drill-text.ts');
  process.stdout.write(options.json ? `${JSON.stringify(drillJson(report), null, 2)}\n` : drillText(report));
}

/** `standside drill EXERCISE`: what is to be played, note by note. */
export function addDrillCommand(program: Command): void {
  withDrillOptions(program.command('drill'))
    .description('print an exercise note by note: names, MIDI numbers, onsets, lengths and syllables')
    .option('--steps', 'print the steps into which a teacher would split it instead, with their tempos')
    .option('--json', 'print JSON')
    .action(print);
}
