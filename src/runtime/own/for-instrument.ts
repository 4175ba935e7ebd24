/** What of all routine files is for the player's instrument; the rest is marked as being for others. */
import type { Exercise } from '../../plan/routine/exercise.ts';
import { type Routine, isForInstrument } from '../../plan/routine/routine.ts';
import { type LoadedRoutine, type LoadedRoutines, exercisesOf, isPackaged } from '../files/routine-finder.ts';

export interface ForInstrument {
  readonly routines: readonly Routine[];
  readonly exercises: readonly Exercise[];
}

/** What the player put into their own folder is always for them. */
const isFor = ({ path, routine }: LoadedRoutine, instrument: string): boolean =>
  !isPackaged(path) || isForInstrument(routine, instrument);

/** All routines and exercises; without an instrument all of them are for the player. */
export function forInstrument(loaded: LoadedRoutines, instrument: string | null): ForInstrument {
  const routines = loaded.routines.map(({ routine }) => routine);
  const exercises = [...exercisesOf(loaded).values()].map(({ exercise }) => exercise);
  if (instrument === null) return { routines, exercises };
  const offered = [...loaded.routines.filter((one) => isFor(one, instrument)), ...loaded.collections];
  const theirs = new Set(offered.flatMap(({ routine }) => routine.exercises.map(({ id }) => id)));
  return {
    routines: loaded.routines.map((one) =>
      isFor(one, instrument) ? one.routine : { ...one.routine, elsewhere: true },
    ),
    exercises: exercises.map((one) => (theirs.has(one.id) ? one : { ...one, elsewhere: true })),
  };
}
