/** The list of all exercises: any line can be put on the stand, whatever the day says. */
import { type Exercise, hasLadder, withoutLadder } from '../../plan/routine/exercise.ts';
import { putOnStand } from '../sitting/put-on-stand.ts';
import { type ExercisesAction, type ListAction, type Stand } from '../stand.ts';
import { type Choice, chosen, lineChosen, moveArticulation, moveKey, moveRow, withOthers } from './line-choice.ts';

function withChoice(stand: Stand, move: (choice: Choice, exercise: Exercise) => Choice): Stand {
  const exercise = chosen(stand.choice, stand.known.exercises);
  return exercise ? { ...stand, choice: move(stand.choice, exercise) } : stand;
}

function open(stand: Stand): Stand {
  const exercise = chosen(stand.choice, stand.known.exercises);
  if (!exercise) return stand;
  if (!hasLadder(exercise)) return { ...stand, answer: { sentence: withoutLadder(exercise), since: stand.now } };
  const line = lineChosen(stand.choice, exercise);
  return putOnStand(stand, exercise, { line, key: line.key }, null);
}

const moved = (stand: Stand, by: number): Stand => ({
  ...stand,
  choice: moveRow(stand.choice, by, stand.known.exercises),
});

export const EXERCISES: Readonly<Record<ListAction | ExercisesAction, (stand: Stand) => Stand>> = {
  up: (stand) => moved(stand, -1),
  down: (stand) => moved(stand, 1),
  'key-before': (stand) => withChoice(stand, (choice, exercise) => moveKey(choice, -1, exercise)),
  'key-after': (stand) => withChoice(stand, (choice, exercise) => moveKey(choice, 1, exercise)),
  articulation: (stand) => withChoice(stand, (choice, exercise) => moveArticulation(choice, 1, exercise)),
  others: (stand) => ({ ...stand, choice: withOthers(stand.choice, stand.known.exercises) }),
  open,
};
