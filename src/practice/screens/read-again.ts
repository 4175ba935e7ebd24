/** Routine files that an editor changed while the program is open. */
import type { ReadAnew, Stand } from '../stand.ts';
import { FIRST } from './line-choice.ts';
import { planned } from './today-keys.ts';

const sameOr = (index: number, otherwise: number): number => (index < 0 ? otherwise : index);

/** What has been found in the files takes the place of what was known; fingers stay where they were. */
export function readAgain(stand: Stand, { troubles, ...read }: ReadAnew): Stand {
  const { known, day, choice, notices } = stand;
  const routine = known.routines[day.routine]?.id;
  const exercise = known.exercises[choice.row]?.id;
  const before = known.troubles;
  const next: Stand = {
    ...stand,
    known: { ...known, ...read, troubles },
    day: {
      ...day,
      routine: sameOr(
        read.routines.findIndex(({ id }) => id === routine),
        0,
      ),
    },
    choice: {
      ...(read.exercises.length > 0 ? choice : FIRST),
      row: sameOr(
        read.exercises.findIndex(({ id }) => id === exercise),
        0,
      ),
    },
    notices: [...troubles, ...notices.filter((one) => !before.includes(one) && !troubles.includes(one))],
  };
  return stand.sitting ? next : planned(next);
}
