/** The player's own rule for all exercises that do not say themselves what moves their ladder. */
import { remembered } from '../../common/remembered.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import type { LoadedRoutine, LoadedRoutines } from './routine-finder.ts';
import type { Settings } from './settings-defaults.ts';

/** The routines as this player practises them. An exercise that several routines share stays one object. */
export function withPlayersRule(loaded: LoadedRoutines, { rule }: Pick<Settings, 'rule'>): LoadedRoutines {
  if (rule.aim === null) return loaded;
  const practised = remembered((exercise: Exercise): Exercise =>
    exercise.ownRule ? exercise : { ...exercise, ladder: { ...exercise.ladder, aim: rule.aim } },
  );
  const withRule = ({ routine, ...rest }: LoadedRoutine): LoadedRoutine => ({
    ...rest,
    routine: { ...routine, exercises: routine.exercises.map(practised) },
  });
  return { ...loaded, routines: loaded.routines.map(withRule), collections: loaded.collections.map(withRule) };
}
