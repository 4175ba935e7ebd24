/** The Today screen: the routine fitted to the minutes there are. */
import { seedOf } from '../../common/chance.ts';
import type { Seconds } from '../../common/units.ts';
import { LEAST_MINUTES, MOST_MINUTES, todaysPlan } from '../../plan/today/todays-plan.ts';
import { type PlayedBefore, playedBefore } from '../../plan/today/played-before.ts';
import type { Plan } from '../../plan/today/plan-items.ts';
import type { Minutes, Routine } from '../../plan/routine/routine.ts';
import { remembered } from '../../common/remembered.ts';
import { type Day, type KnownSoFar, type ListAction, type Stand, type TodayAction } from '../stand.ts';

/** The routine on the Today screen; null where there is none. */
export const routineToday = ({ known, day }: Pick<Stand, 'known' | 'day'>): Routine | null =>
  known.routines[day.routine] ?? null;

const playedSoFar: (known: KnownSoFar) => PlayedBefore = remembered(({ today, records, lines }) =>
  playedBefore(today, records, Object.values(lines)),
);

/** What the records say about today's blocks and exercises. */
export const knownToday = ({ known }: Pick<Stand, 'known'>): PlayedBefore => playedSoFar(known);

/**
 * Fits the day anew: after the minutes, the routine or the day itself have changed. The same day and routine draw the
 * same plan, whenever it is looked at.
 */
export function planned(stand: Stand): Stand {
  const routine = routineToday(stand);
  if (!routine) return { ...stand, day: { ...stand.day, plan: null } };
  const { minutes, order } = stand.day;
  const ask = { minutes, before: knownToday(stand), seed: seedOf(stand.known.today + routine.id) };
  const plan: Plan = todaysPlan(routine, order === null ? ask : { ...ask, order });
  const row = Math.min(stand.day.row, Math.max(0, plan.items.length - 1));
  return { ...stand, day: { ...stand.day, plan, row } };
}

const withDay = (stand: Stand, change: Partial<Day>): Stand => ({ ...stand, day: { ...stand.day, ...change } });

const clamp = (minutes: Minutes): Minutes => Math.min(MOST_MINUTES, Math.max(LEAST_MINUTES, minutes));

const addTime = (stand: Stand, by: Minutes): Stand =>
  planned(withDay(stand, { minutes: clamp(stand.day.minutes + by), typed: '' }));

/** Figures typed soon after each other are one number; after a pause, or three of them, a new one begins. */
const SOON: Seconds = 1.5;

function typeTime(stand: Stand, key: string): Stand {
  const { now } = stand;
  const { typed: before, typedAt } = stand.day;
  const goesOn = before.length < 3 && now - typedAt <= SOON;
  const typed = `${Number((goesOn ? before : '') + key)}`;
  if (typed === '0') return stand;
  return planned(withDay(stand, { typed, typedAt: now, minutes: clamp(Number(typed)) }));
}

/** Today opens with the routine that was last played. */
export function withLastRoutine(stand: Stand): Stand {
  const plan = stand.known.records.findLast((record) => record.kind === 'plan');
  const routine = plan?.kind === 'plan' ? stand.known.routines.findIndex(({ id }) => id === plan.routine) : -1;
  return routine < 0 ? stand : withDay(stand, { routine });
}

function otherOrder(stand: Stand): Stand {
  const now = stand.day.plan?.order ?? 'blocked';
  return planned(withDay(stand, { order: now === 'blocked' ? 'interleaved' : 'blocked' }));
}

const otherRoutine = (stand: Stand): Stand =>
  planned(
    withDay(stand, {
      routine: (stand.day.routine + 1) % Math.max(1, stand.known.routines.length),
      order: null,
      row: 0,
    }),
  );

function moveTo(stand: Stand, by: number): Stand {
  const items = stand.day.plan?.items.length ?? 0;
  return withDay(stand, { row: items === 0 ? 0 : (stand.day.row + by + items) % items, typed: '' });
}

export const TODAY: Readonly<
  Record<Exclude<ListAction | TodayAction, 'open' | 'go-on'>, (stand: Stand, key: string) => Stand>
> = {
  up: (stand) => moveTo(stand, -1),
  down: (stand) => moveTo(stand, 1),
  'more-time': (stand) => addTime(stand, 5),
  'less-time': (stand) => addTime(stand, -5),
  'type-time': typeTime,
  order: otherOrder,
  routine: otherRoutine,
  exercises: (stand) => ({ ...stand, view: { screen: 'exercises' } }),
};
