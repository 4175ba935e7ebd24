/** The Today screen: the routine fitted to the minutes there are. */
import { seedOf } from '../../common/chance.ts';
import type { Seconds } from '../../common/units.ts';
import { BY_HAND, type ListItem } from '../../diary/entry.ts';
import { DEFAULT_INSTRUMENT } from '../../music/pitch/instruments.ts';
import { handPlan, handRoutine, listOf } from '../../plan/today/hand-list.ts';
import { LEAST_MINUTES, MOST_MINUTES, todaysPlan } from '../../plan/today/todays-plan.ts';
import { planLeft } from '../../plan/today/plan-as-played.ts';
import { type PlayedBefore, blockKey, playedBefore } from '../../plan/today/played-before.ts';
import type { Plan } from '../../plan/today/plan-items.ts';
import type { Minutes, Part, Routine } from '../../plan/routine/routine.ts';
import { remembered } from '../../common/remembered.ts';
import { type Day, type KnownSoFar, type ListAction, type Stand, type TodayAction } from '../stand.ts';

/** Today's list by hand; empty where there is none. */
export const listToday = ({ known }: Pick<Stand, 'known'>): readonly ListItem[] => listOf(known.records, known.today);

/** Whether Today shows the list by hand. */
const isByHand = (stand: Pick<Stand, 'known' | 'day'>): boolean => stand.day.byHand && listToday(stand).length > 0;

/** The routine that the list by hand belongs to. */
export const handRoutineOf = ({ known, day }: Pick<Stand, 'known' | 'day'>): Routine =>
  handRoutine(known.exercises, known.routines[day.routine]?.instrument ?? DEFAULT_INSTRUMENT);

/** The routine on the Today screen, or the list by hand; null where there is none. */
export const routineToday = (stand: Pick<Stand, 'known' | 'day'>): Routine | null =>
  isByHand(stand) ? handRoutineOf(stand) : (stand.known.routines[stand.day.routine] ?? null);

const playedSoFar: (known: KnownSoFar) => PlayedBefore = remembered(({ today, records, lines }) =>
  playedBefore(today, records, Object.values(lines)),
);

/** What the records say about today's blocks and exercises. */
export const knownToday = ({ known }: Pick<Stand, 'known'>): PlayedBefore => playedSoFar(known);

/** Of a routine, the parts that nothing was played of today. */
export const TO_COME = '·to come';

const isBegun = ({ known }: Pick<Stand, 'known'>, routine: Routine, { id, blocks }: Part): boolean => {
  const { today } = knownToday({ known });
  return blocks.some((block) => today.has(blockKey(routine.id, id, block.id)));
};

/** Ids of the parts that are asked for; null for all of them. */
function partsOf(stand: Pick<Stand, 'known' | 'day'>, routine: Routine): readonly string[] | null {
  const { part } = stand.day;
  if (part === null) return null;
  if (part !== TO_COME) return routine.parts.some(({ id }) => id === part) ? [part] : null;
  return routine.parts.filter((one) => !isBegun(stand, routine, one)).map(({ id }) => id);
}

/** 'Fingers', 'what is still to come'; empty for the whole day. */
export function partWords(stand: Pick<Stand, 'known' | 'day'>): string {
  const { part } = stand.day;
  if (part === null || isByHand(stand)) return '';
  return part === TO_COME
    ? 'parts still to come'
    : (routineToday(stand)?.parts.find(({ id }) => id === part)?.title ?? '');
}

/** The whole day, then each part alone, then those still to come where something was played and something is left. */
function otherPart(stand: Stand): Stand {
  const routine = routineToday(stand);
  if (!routine || isByHand(stand) || routine.parts.length < 2) return stand;
  const begun = routine.parts.filter((one) => isBegun(stand, routine, one)).length;
  const toCome = begun > 0 && begun < routine.parts.length ? [TO_COME] : [];
  const all = [null, ...routine.parts.map(({ id }) => id), ...toCome];
  const next = all[(all.indexOf(stand.day.part) + 1) % all.length] ?? null;
  return planned(withDay(stand, { part: next, row: 0 }));
}

/** The list is played as it is. */
const listPlan = (stand: Stand): Plan =>
  handPlan(listToday(stand), stand.known.exercises, knownToday(stand), stand.day.minutes);

function fitted(stand: Stand, routine: Routine): Plan {
  const { minutes, order } = stand.day;
  const parts = partsOf(stand, routine);
  const ask = { minutes, before: knownToday(stand), seed: seedOf(stand.known.today + routine.id) };
  return todaysPlan(routine, { ...ask, ...(order === null ? {} : { order }), ...(parts === null ? {} : { parts }) });
}

/** The day as its list says, or the routine where there is no list any more. */
export const withListToday = (stand: Stand): Stand => planned(withDay(stand, { byHand: listToday(stand).length > 0 }));

/**
 * Fits the day anew: after the minutes, the routine or the day itself have changed. The same day and routine draw the
 * same plan, whenever it is looked at.
 */
export function planned(stand: Stand): Stand {
  const routine = routineToday(stand);
  if (!routine) return { ...stand, day: { ...stand.day, plan: null } };
  const plan = isByHand(stand) ? listPlan(stand) : fitted(stand, routine);
  const row = Math.min(stand.day.row, Math.max(0, plan.items.length - 1));
  return { ...stand, day: { ...stand.day, plan, row, since: knownToday(stand) } };
}

/** After some of it was played the proposal stays, less what is done, until another one is asked for. */
export function afterPlaying(stand: Stand): Stand {
  const { plan, since } = stand.day;
  const now = knownToday(stand);
  const left = plan && since && !isByHand(stand) ? planLeft(plan, since, now) : null;
  if (!left) return planned(stand);
  return withDay(stand, { plan: left, since: now, row: Math.min(stand.day.row, left.items.length - 1) });
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

/** Today opens with the list by hand, where there is one, or the routine last played, or the one to begin with. */
export function withLastRoutine(first: Stand): Stand {
  const stand = withDay(first, { byHand: listToday(first).length > 0 });
  const plan = stand.known.records.findLast((record) => record.kind === 'plan' && record.routine !== BY_HAND);
  const wanted = plan?.kind === 'plan' ? plan.routine : stand.settings.routine;
  const routine = stand.known.routines.findIndex(({ id, elsewhere }) => id === wanted && !elsewhere);
  return routine < 0 ? stand : withDay(stand, { routine });
}

function otherOrder(stand: Stand): Stand {
  const now = stand.day.plan?.order ?? 'blocked';
  return planned(withDay(stand, { order: now === 'blocked' ? 'interleaved' : 'blocked' }));
}

/** Places among the routines of those for the player's instrument. */
const offeredRoutines = ({ known }: Pick<Stand, 'known'>): readonly number[] =>
  known.routines.flatMap(({ elsewhere }, index) => (elsewhere ? [] : [index]));

/** The routines one after the other, and then the list by hand where there is one. */
function otherRoutine(stand: Stand): Stand {
  const { routine, byHand } = stand.day;
  const offered = offeredRoutines(stand);
  const after = offered.find((index) => index > routine);
  const isListNext = after === undefined && !byHand && listToday(stand).length > 0;
  const next = (byHand ? undefined : after) ?? offered[0] ?? 0;
  return planned(withDay(stand, { routine: next, byHand: isListNext, part: null, order: null, row: 0 }));
}

function moveTo(stand: Stand, by: number): Stand {
  const items = stand.day.plan?.items.length ?? 0;
  return withDay(stand, { row: items === 0 ? 0 : (stand.day.row + by + items) % items, typed: '' });
}

export const TODAY: Readonly<
  Record<Exclude<ListAction | TodayAction, 'open' | 'go-on' | 'list'>, (stand: Stand, key: string) => Stand>
> = {
  up: (stand) => moveTo(stand, -1),
  down: (stand) => moveTo(stand, 1),
  'more-time': (stand) => addTime(stand, 5),
  'less-time': (stand) => addTime(stand, -5),
  'type-time': typeTime,
  order: otherOrder,
  part: otherPart,
  routine: otherRoutine,
  exercises: (stand) => ({ ...stand, view: { screen: 'exercises' } }),
};
