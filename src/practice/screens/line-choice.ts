/** Which line the player has a finger on: an exercise, and for each exercise its key and articulation. */
import { type Line } from '../../ladder/line.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';

export interface Choice {
  readonly row: number;
  readonly keyOf: Readonly<Record<string, number>>;
  readonly articulationOf: Readonly<Record<string, number>>;
  /** Whether those of other instruments are in the list too. */
  readonly others?: boolean;
}

export const FIRST: Choice = { row: 0, keyOf: {}, articulationOf: {} };

const wrap = (index: number, length: number): number => (length === 0 ? 0 : ((index % length) + length) % length);

/** The exercise's chosen key and articulation, the first of each to begin with. */
export function lineChosen(choice: Choice, exercise: Exercise): Line {
  return {
    exercise: exercise.id,
    key: exercise.keys[choice.keyOf[exercise.id] ?? 0] ?? 'C',
    articulation: exercise.articulations[choice.articulationOf[exercise.id] ?? 0] ?? 'slurred',
  };
}

export const chosen = (choice: Choice, exercises: readonly Exercise[]): Exercise | null =>
  exercises[choice.row] ?? null;

export const moveRow = (choice: Choice, by: number, exercises: readonly Exercise[]): Choice => ({
  ...choice,
  row: wrap(choice.row + by, listed(choice, exercises)),
});

/** How many are in the list: those of other instruments stand last, and only where they were asked for. */
export function listed({ row, others }: Choice, exercises: readonly Exercise[]): number {
  const first = exercises.findIndex(({ elsewhere }) => elsewhere);
  return others || first < 0 || row >= first ? exercises.length : first;
}

/** Those of other instruments too, or no more; the finger stays among those that show. */
export function withOthers(choice: Choice, exercises: readonly Exercise[]): Choice {
  if (!choice.others) return { ...choice, others: true };
  const first = exercises.findIndex(({ elsewhere }) => elsewhere);
  return { ...choice, others: false, row: first < 0 ? choice.row : Math.min(choice.row, Math.max(0, first - 1)) };
}

export const moveKey = (choice: Choice, by: number, { id, keys }: Exercise): Choice => ({
  ...choice,
  keyOf: { ...choice.keyOf, [id]: wrap((choice.keyOf[id] ?? 0) + by, keys.length) },
});

export const moveArticulation = (choice: Choice, by: number, { id, articulations }: Exercise): Choice => ({
  ...choice,
  articulationOf: { ...choice.articulationOf, [id]: wrap((choice.articulationOf[id] ?? 0) + by, articulations.length) },
});

/** The choice that has this line under the finger. */
export function choiceOf(line: Line, exercises: readonly Exercise[]): Choice {
  const row = exercises.findIndex(({ id }) => id === line.exercise);
  const exercise = exercises[row];
  if (!exercise) return FIRST;
  return {
    row,
    keyOf: { [exercise.id]: Math.max(0, exercise.keys.indexOf(line.key)) },
    articulationOf: { [exercise.id]: Math.max(0, exercise.articulations.indexOf(line.articulation)) },
  };
}
