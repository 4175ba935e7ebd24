/** The Today screen: the routine fitted to the minutes there are. */
import { LEAST_MINUTES, MOST_MINUTES, fit } from '../plan/fit.ts';
import { type Known, knownOn } from '../plan/known.ts';
import type { Plan } from '../plan/plan.ts';
import type { Minutes, Routine } from '../plan/routine.ts';
import { type Day, type ListAction, type Stand, type TodayAction } from './stand.ts';

export const routineToday = ({ routines, day }: Stand): Routine | null => routines[day.routine] ?? null;

export const knownToday = ({ today, records, lines }: Stand): Known => knownOn(today, records, Object.values(lines));

/** The same day and routine draw the same plan, whenever it is looked at. */
export const seedOf = (text: string): number => [...text].reduce((sum, character) => (sum * 31 + (character.codePointAt(0) ?? 0)) % 2147483647, 7);

/** Fits the day anew: after the minutes, the routine or the day itself have changed. */
export function planned(stand: Stand): Stand {
  const routine = routineToday(stand);
  if (!routine) return { ...stand, day: { ...stand.day, plan: null } };
  const { minutes, order } = stand.day;
  const ask = { minutes, known: knownToday(stand), seed: seedOf(stand.today + routine.id) };
  const plan: Plan = fit(routine, order === null ? ask : { ...ask, order });
  const row = Math.min(stand.day.row, Math.max(0, plan.items.length - 1));
  return { ...stand, day: { ...stand.day, plan, row } };
}

const withDay = (stand: Stand, change: Partial<Day>): Stand => ({ ...stand, day: { ...stand.day, ...change } });

const clamp = (minutes: Minutes): Minutes => Math.min(MOST_MINUTES, Math.max(LEAST_MINUTES, minutes));

const addTime = (stand: Stand, by: Minutes): Stand =>
  planned(withDay(stand, { minutes: clamp(stand.day.minutes + by), typed: '' }));

/** Figures typed one after the other are one number; a fourth begins a new one. */
function typeTime(stand: Stand, key: string): Stand {
  const typed = (stand.day.typed.length >= 3 ? '' : stand.day.typed) + key;
  return planned(withDay(stand, { typed, minutes: clamp(Number(typed)) }));
}

function otherOrder(stand: Stand): Stand {
  const now = stand.day.plan?.order ?? 'blocked';
  return planned(withDay(stand, { order: now === 'blocked' ? 'interleaved' : 'blocked' }));
}

const otherRoutine = (stand: Stand): Stand =>
  planned(withDay(stand, { routine: (stand.day.routine + 1) % Math.max(1, stand.routines.length), order: null, row: 0 }));

function moveTo(stand: Stand, by: number): Stand {
  const items = stand.day.plan?.items.length ?? 0;
  return withDay(stand, { row: items === 0 ? 0 : (stand.day.row + by + items) % items, typed: '' });
}

export const TODAY: Readonly<Record<Exclude<ListAction | TodayAction, 'open' | 'go-on'>, (stand: Stand, key: string) => Stand>> = {
  up: (stand) => moveTo(stand, -1),
  down: (stand) => moveTo(stand, 1),
  'more-time': (stand) => addTime(stand, 5),
  'less-time': (stand) => addTime(stand, -5),
  'type-time': typeTime,
  order: otherOrder,
  routine: otherRoutine,
  exercises: (stand) => ({ ...stand, screen: 'exercises' }),
};
