/** A day's list by hand: played as it is, nothing fitted, nothing left out. */
import { BREAK, BY_HAND, type DayEntry, type ListEntry, type ListItem, type PlannedItem } from '../../diary/entry.ts';
import { dayPlus } from '../../common/days.ts';
import type { Exercise } from '../routine/exercise.ts';
import { type Minutes, type Routine, DEFAULT_LIMITS } from '../routine/routine.ts';
import { shortName } from '../own/new-name.ts';
import { type PlayedBefore, blockKey } from './played-before.ts';
import { type Plan, type PlanItem, totalMinutes } from './plan-items.ts';

/** What a thing is given unless its exercise or the player says otherwise. */
export const USUAL_MINUTES: Minutes = 5;

/** A thing as the list takes it in. */
export const listItemOf = ({ id, title, minutes = USUAL_MINUTES }: Exercise): ListItem => ({
  exercise: id,
  title,
  length: minutes * 60,
});

const exerciseOf = (exercises: readonly Exercise[], id: string | null): Exercise | null =>
  exercises.find((one) => one.id === id) ?? null;

/** An item by hand: what its exercise says of it, and no more. */
export function handItem(
  block: string,
  { exercise: id, title, length }: ListItem,
  exercises: readonly Exercise[],
): PlanItem {
  const exercise = exerciseOf(exercises, id);
  return {
    part: BY_HAND,
    block,
    title: exercise?.title ?? title,
    kind: exercise?.kind ?? 'body',
    minutes: length / 60,
    exercise: exercise === null ? null : id,
    turn: null,
    reason: '',
    warmUp: false,
    highLoad: exercise?.highLoad === true,
    material: exercise?.material ?? null,
    cues: exercise?.cues ?? [],
    atEnd: 'wait',
    breaths: exercise?.breaths ?? null,
    keys: null,
    articulations: null,
  };
}

/** A name for a block that none of the others has. */
export function blockName({ exercise, title }: ListItem, taken: readonly string[]): string {
  const base = exercise ?? (shortName(title) || 'block');
  const count = (n: number): string => (n === 1 ? base : `${base}-${n}`);
  let n = 1;
  while (taken.includes(count(n))) n += 1;
  return count(n);
}

const clock = (seconds: number): string =>
  `${Math.floor(seconds / 60)}:${`${Math.floor(seconds % 60)}`.padStart(2, '0')}`;

/** What of it is still to be played: one that was begun goes on, one that is done says so. */
function asItStands(item: PlanItem, before: PlayedBefore): PlanItem {
  const today = before.today.get(blockKey(BY_HAND, item.part, item.block));
  if (!today || today.played === 0) return item;
  if (isDone(item, before)) return { ...item, reason: `done today, ${clock(today.played)}` };
  const left = Math.max(0.5, item.minutes - today.played / 60);
  return { ...item, minutes: left, reason: `begun today, ${clock(today.played)} played` };
}

/** Whether a thing of the list was done today. */
export const isDone = ({ part, block }: Pick<PlanItem, 'part' | 'block'>, before: PlayedBefore): boolean =>
  ['done', 'skipped'].includes(before.today.get(blockKey(BY_HAND, part, block))?.event ?? '');

export function handItems(
  list: readonly ListItem[],
  exercises: readonly Exercise[],
  before: PlayedBefore,
): readonly PlanItem[] {
  const names: string[] = [];
  return list.map((one) => {
    names.push(blockName(one, names));
    return asItStands(handItem(names.at(-1) ?? '', one, exercises), before);
  });
}

/** The list as a plan: an item for each thing, in its order, for its minutes. */
export function handPlan(
  list: readonly ListItem[],
  exercises: readonly Exercise[],
  before: PlayedBefore,
  minutes: Minutes,
): Plan {
  const items = handItems(list, exercises, before);
  const materials = [...new Set(items.flatMap(({ material }) => material ?? []))];
  return { routine: BY_HAND, minutes, order: 'blocked', items, leftOut: [], materials, sentences: [] };
}

/** Minutes of the list that are still to be played. */
export const minutesOpen = (items: readonly PlanItem[], before: PlayedBefore): Minutes =>
  totalMinutes(items.filter((item) => !isDone(item, before)));

/** Items by hand belong to a routine of their own, which holds every exercise there is. */
export const handRoutine = (exercises: readonly Exercise[], instrument: string): Routine => ({
  id: BY_HAND,
  title: 'Your list',
  about: '',
  instrument,
  exercises,
  pools: [],
  parts: [{ id: BY_HAND, title: 'By hand', blocks: [] }],
  limits: DEFAULT_LIMITS,
  breaks: null,
  order: 'blocked',
});

/** A planned item by hand as a thing of a list. */
export const listItemOfPlanned = ({ exercise, title, length }: PlannedItem): ListItem => ({
  exercise,
  title: title ?? exercise ?? '',
  length,
});

/** What was written on one day: the newest records are looked at first, and years of others not at all. */
function recordsOn(records: readonly DayEntry[], day: string): readonly DayEntry[] {
  const before = records.findLastIndex((record) => record.day < day);
  return records.slice(before + 1).filter((record) => record.day === day);
}

/** The last change of a day's list; null where there is none. */
export function listEntryOf(records: readonly DayEntry[], day: string): ListEntry | null {
  const last = recordsOn(records, day).findLast(({ kind }) => kind === 'list');
  return last?.kind === 'list' ? last : null;
}

/** The list of a day; empty where there is none. */
export const listOf = (records: readonly DayEntry[], day: string): readonly ListItem[] =>
  listEntryOf(records, day)?.items ?? [];

const titleIn = (routines: readonly Routine[], routine: string, { part, block, title }: PlannedItem): string | null =>
  title ??
  routines
    .find(({ id }) => id === routine)
    ?.parts.find(({ id }) => id === part)
    ?.blocks.find(({ id }) => id === block)?.title ??
  null;

/** What was planned and added that day, over all its sittings, each thing once and without the rests. */
function planned(records: readonly DayEntry[], day: string, known: Known): readonly ListItem[] {
  const seen = new Map<string, ListItem>();
  for (const record of recordsOn(records, day)) {
    if (record.kind !== 'plan' && record.kind !== 'added') continue;
    for (const item of record.kind === 'plan' ? record.items : [record.item]) {
      const exercise = exerciseOf(known.exercises, item.exercise);
      const title = exercise?.title ?? titleIn(known.routines, record.routine, item);
      const key = blockKey(record.routine, item.part, item.block);
      if (item.block === BREAK || title === null || seen.has(key)) continue;
      seen.set(key, { exercise: exercise?.id ?? null, title, length: item.before + item.length });
    }
  }
  return [...seen.values()];
}

interface Known {
  readonly exercises: readonly Exercise[];
  readonly routines: readonly Routine[];
}

/** What was played that day as a list: the player's own list, else what the sittings set out to do. */
export function listAsOn(records: readonly DayEntry[], day: string, known: Known): readonly ListItem[] {
  const own = listOf(records, day);
  return own.length > 0 ? own : planned(records, day, known);
}

const MOST_DAYS_BACK = 60;

/** The last day before this one that has something to take up again; null within two months. */
export function dayBefore(records: readonly DayEntry[], day: string, known: Known): string | null {
  for (let back = 1; back <= MOST_DAYS_BACK; back += 1) {
    const one = dayPlus(day, -back);
    if (listAsOn(records, one, known).length > 0) return one;
  }
  return null;
}
