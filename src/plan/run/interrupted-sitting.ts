/** A sitting that was left, or cut off by a power failure, gone on with from the journal's records. */
import { BREAK, BY_HAND, type BlockEntry, type DayEntry, type PlanEntry, type PlannedItem } from '../../diary/entry.ts';
import type { Seconds } from '../../common/units.ts';
import { inWords, minutesAndSeconds } from '../../common/time-words.ts';
import { breakItem, blockDetails, isRest } from '../today/plan-items.ts';

import type { Exercise } from '../routine/exercise.ts';
import { type Routine, exerciseOf } from '../routine/routine.ts';
import { listItemOfPlanned } from '../today/hand-list.ts';
import { runItemOf } from './added-item.ts';
import { type RunItem, sameBlock, withRecords } from './run-items.ts';
import { type Run, secondsLeft } from './run.ts';

/** What the file keeps the planned exercise under now: another file may have come to have its bare name since. */
const exerciseIn = (routine: Routine, { exercise }: PlannedItem): string | null =>
  exercise === null ? null : (exerciseOf(routine, exercise)?.id ?? exercise);

/** An item as planned; null when the routine file no longer has its block. */
function itemFrom(routine: Routine, planned: PlannedItem, exercises: readonly Exercise[]): RunItem | null {
  if (planned.part === BY_HAND && planned.block !== BREAK)
    return runItemOf(planned.block, listItemOfPlanned(planned), exercises, planned.before);
  const part = routine.parts.find(({ id }) => id === planned.part);
  if (part === undefined) return null;
  const { length, before } = planned;
  const fresh = { length, before, played: 0, state: 'open' as const };
  if (planned.block === BREAK) {
    const { minutes: _, ...rest } = breakItem(part, length / 60);
    return { ...rest, ...fresh };
  }
  const block = part.blocks.find(({ id }) => id === planned.block);
  return block === undefined
    ? null
    : { ...blockDetails(routine, part, block, exerciseIn(routine, planned)), turn: null, reason: '', ...fresh };
}

/** Numbers the turns of blocks that come more than once. */
const withTurns = (items: readonly RunItem[]): readonly RunItem[] =>
  items.map((item, i) => {
    const of = isRest(item) ? 1 : items.filter((one) => sameBlock(one, item)).length;
    return of === 1
      ? item
      : { ...item, turn: { n: items.slice(0, i + 1).filter((one) => sameBlock(one, item)).length, of } };
  });

/** The block that was being played, else the first that is open from there on, else the first of all. */
function whereLeft(items: readonly RunItem[], last: BlockEntry): number {
  const begun = items.findIndex((item) => item.state === 'open' && item.played > 0 && sameBlock(item, last));
  if (begun >= 0) return begun;
  const isOpen = (item: RunItem, i: number): boolean =>
    item.state === 'open' && items.slice(i).some((one) => one.state === 'open' && !isRest(one));
  const here = items.findIndex((item) => sameBlock(item, last));
  const later = items.findIndex((item, i) => i >= here && isOpen(item, i));
  return later >= 0 ? later : items.findIndex(isOpen);
}

/** Counted as the sitting was planned, which is how the player saw it listed. */
const placeIn = (items: readonly RunItem[], { part, block }: RunItem): string => {
  const parts = [...new Set(items.map((item) => item.part))];
  const blocks = [...new Set(items.filter((item) => item.part === part && !isRest(item)).map((item) => item.block))];
  const p = `part ${inWords(parts.indexOf(part) + 1)}`;
  return blocks.includes(block) ? `${p}, block ${inWords(blocks.indexOf(block) + 1)}` : p;
};

/** 'Go on with part two, block three (Thirds): 2:40 left.' */
const goOn = (items: readonly RunItem[], item: RunItem): string =>
  `Go on with ${placeIn(items, item)} (${item.title}): ${minutesAndSeconds(secondsLeft(item))} left.`;

const isPlanOf =
  (routine: Routine, day: string) =>
  (record: DayEntry): record is PlanEntry =>
    record.kind === 'plan' && record.day === day && record.routine === routine.id;

/** What the player put at the end of it while it ran. */
const addedSince = (routine: Routine, records: readonly DayEntry[], day: string): readonly PlannedItem[] =>
  records.flatMap((record) =>
    record.kind === 'added' && record.day === day && record.routine === routine.id ? [record.item] : [],
  );

/**
 * The day's last sitting with this routine as it stood, ready to be gone on with; its remark says where.
 * Null when there was none, nothing of it was played, or nothing of it is open. Records come as they were written;
 * what was put in by hand is found among all exercises.
 */
export function restoreRun(
  routine: Routine,
  day: string,
  records: readonly DayEntry[],
  now: Seconds,
  exercises: readonly Exercise[] = routine.exercises,
): Run | null {
  const isPlan = isPlanOf(routine, day);
  const at = records.findLastIndex(isPlan);
  const plan = records[at];
  if (plan === undefined || !isPlan(plan)) return null;
  const since = records
    .slice(at + 1)
    .filter(
      (record): record is BlockEntry => record.kind === 'block' && record.day === day && record.routine === routine.id,
    );
  const last = since.at(-1);
  if (last === undefined) return null;
  const all = [...plan.items, ...addedSince(routine, records.slice(at + 1), day)];
  const items = withRecords(withTurns(all.flatMap((one) => itemFrom(routine, one, exercises) ?? [])), since);
  const here = whereLeft(items, last);
  const item = items[here];
  if (item === undefined) return null;
  return {
    routine: routine.id,
    items,
    at: here,
    phase: 'ready',
    clock: now,
    unsaid: 0,
    breaths: 0,
    breathAt: item.played,
    said: [],
    asked: null,
    remark: goOn(items, item),
  };
}
