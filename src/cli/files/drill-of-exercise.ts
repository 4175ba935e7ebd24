/** The drill that `drill` prints and `write` puts on a page. */
import type { KeyName } from '../../ladder/line.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import type { DroneWanted } from '../../plan/routine/exercise.ts';
import { type DrillWords, drillAsked, keyAsked } from '../../runtime/asked/drill-asked.ts';
import { tempoAsked } from '../../runtime/asked/line-asked.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import type { DrillReport } from '../output/drill-listing.ts';
import { exerciseNamed } from './exercise-by-name.ts';
import { playersSettings } from './players-settings.ts';

export interface DrillOfExerciseOptions extends DrillWords, DataOption {
  readonly tempo?: string;
}

export interface DrillOfExercise extends DrillReport {
  readonly title: string;
  /** As the journal names it: 'Bb', 'A minor'. */
  readonly key: KeyName;
  /** The drone that it is played over; null where it has none. */
  readonly drone: DroneWanted | null;
}

/** @throws Trouble for every word that is wrong. */
export async function drillOfExercise(name: string, options: DrillOfExerciseOptions): Promise<DrillOfExercise> {
  const folder = dataFolderOf(options);
  const { exercise, routine } = await exerciseNamed(folder, name);
  const settings = await playersSettings(folder);
  const drill = drillAsked(exercise, options, settings.instrument ?? routine.instrument, settings.syllables);
  const { start } = lineRule(exercise, drill.articulation.name);
  const bpm = options.tempo === undefined ? start : tempoAsked(options.tempo);
  return {
    exercise: exercise.id,
    title: exercise.title,
    key: keyAsked(options.key, exercise),
    drone: exercise.drone ?? null,
    drill,
    bpm,
    a4: settings.a4,
  };
}
