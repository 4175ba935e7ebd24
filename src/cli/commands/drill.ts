import { tonguingSteps } from '../../plan/rotation/multiple-tonguing-steps.ts';
import { keyAsked } from '../../runtime/asked/drill-asked.ts';
import { type DrillOfExerciseOptions, drillOfExercise } from '../files/drill-of-exercise.ts';
import { exerciseNamed } from '../files/exercise-by-name.ts';
import { dataFolderOf } from '../options/data-option.ts';
import { drillJson, drillText, stepsText } from '../output/drill-listing.ts';
import { printJson, printText } from '../output/print.ts';

export interface DrillOptions extends DrillOfExerciseOptions {
  readonly json?: boolean;
  readonly steps?: boolean;
}

/** The lines into which a teacher would split it, with their ladders. */
async function printSteps(name: string, options: DrillOptions): Promise<void> {
  const { exercise } = await exerciseNamed(dataFolderOf(options), name);
  const steps = tonguingSteps(exercise, keyAsked(options.key, exercise));
  if (options.json) printJson(steps);
  else printText(stepsText(steps));
}

async function printDrill(name: string, options: DrillOptions): Promise<void> {
  const report = await drillOfExercise(name, options);
  if (options.json) printJson(drillJson(report));
  else printText(drillText(report));
}

export const drill = (name: string, options: DrillOptions): Promise<void> =>
  options.steps ? printSteps(name, options) : printDrill(name, options);
