/** The list of all exercises: any line can be put on the stand, whatever the day says. */
import { putOnStand } from '../sitting/put-on-stand.ts';
import { type Choice, chosen, lineChosen, moveArticulation, moveKey, moveRow } from './line-choice.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { type ExercisesAction, type ListAction, type Stand } from '../stand.ts';

function withChoice(stand: Stand, move: (choice: Choice, exercise: Exercise) => Choice): Stand {
  const exercise = chosen(stand.choice, stand.exercises);
  return exercise ? { ...stand, choice: move(stand.choice, exercise) } : stand;
}

function open(stand: Stand): Stand {
  const exercise = chosen(stand.choice, stand.exercises);
  if (!exercise) return stand;
  const line = lineChosen(stand.choice, exercise);
  return putOnStand(stand, exercise, { line, key: line.key }, null);
}

export const EXERCISES: Readonly<Record<ListAction | ExercisesAction, (stand: Stand) => Stand>> = {
  up: (stand) => ({ ...stand, choice: moveRow(stand.choice, -1, stand.exercises) }),
  down: (stand) => ({ ...stand, choice: moveRow(stand.choice, 1, stand.exercises) }),
  'key-before': (stand) => withChoice(stand, (choice, exercise) => moveKey(choice, -1, exercise)),
  'key-after': (stand) => withChoice(stand, (choice, exercise) => moveKey(choice, 1, exercise)),
  articulation: (stand) => withChoice(stand, (choice, exercise) => moveArticulation(choice, 1, exercise)),
  open,
};
