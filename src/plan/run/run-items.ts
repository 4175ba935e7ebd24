/** The items of a running routine, and what the journal is told of them. */
import { BREAK, BY_HAND, type BlockEntry, type PlannedItem, type Unstamped } from '../../diary/entry.ts';
import type { Seconds } from '../../common/units.ts';
import { type PlayedBefore, blockKey } from '../today/played-before.ts';
import { type Plan, type PlanItem, isRest } from '../today/plan-items.ts';

export interface RunItem extends Omit<PlanItem, 'minutes'> {
  readonly length: Seconds;
  readonly played: Seconds;
  /** Played of this block earlier today, before this sitting. */
  readonly before: Seconds;
  readonly state: 'open' | 'done' | 'skipped';
  /** The journal knows of it from an earlier start, even if no time of it was written down. */
  readonly begun?: boolean;
}

export function itemsOfPlan(plan: Plan, before: PlayedBefore): readonly RunItem[] {
  return plan.items.map(({ minutes, ...item }) => {
    const today = before.today.get(blockKey(plan.routine, item.part, item.block));
    return { ...item, length: minutes * 60, played: 0, before: today?.played ?? 0, state: 'open' };
  });
}

/** The title is written down where no file and no exercise could say it later. */
export const plannedItem = ({ part, block, length, before, exercise, title }: RunItem): PlannedItem => ({
  part,
  block,
  length,
  before,
  exercise,
  ...(part === BY_HAND && exercise === null ? { title } : {}),
});

export const sameBlock = (a: Pick<RunItem, 'part' | 'block'>, b: Pick<RunItem, 'part' | 'block'>): boolean =>
  a.part === b.part && a.block === b.block;

export const total = (items: readonly RunItem[], of: 'played' | 'length'): Seconds =>
  items.reduce((sum, item) => sum + item[of], 0);

const tenths = (seconds: Seconds): Seconds => Math.round(seconds * 10) / 10;

/** What is to be written of a block: all its turns and what was played of it before this sitting, taken together. */
export function blockRecord(
  routine: string,
  items: readonly RunItem[],
  item: RunItem,
  event: BlockEntry['event'],
): Unstamped<BlockEntry> {
  const turns = items.filter((one) => sameBlock(one, item));
  return {
    kind: 'block',
    routine,
    part: item.part,
    block: item.block,
    event,
    played: tenths(item.before + total(turns, 'played')),
    length: tenths(item.before + total(turns, 'length')),
    exercise: item.exercise,
  };
}

/** Whether nothing of a block is open any more. */
export const isBlockOver = (items: readonly RunItem[], item: RunItem): boolean =>
  items.every((one) => !sameBlock(one, item) || one.state !== 'open');

/** Puts what a block's newest record says back on its turns, first turns first; added time belongs to the last. */
function withRecord(items: readonly RunItem[], record: BlockEntry): readonly RunItem[] {
  const turns = items.filter((item) => sameBlock(item, record));
  const last = turns.at(-1);
  if (last === undefined) return items;
  const added = Math.max(0, record.length - last.before - total(turns, 'length'));
  let left = Math.max(0, record.played - last.before);
  return items.map((item) => {
    if (!sameBlock(item, record)) return item;
    const length = item === last ? item.length + added : item.length;
    const played = item === last ? left : Math.min(left, length);
    left -= played;
    return { ...item, length, played, state: stateOf(record, played, length), begun: true };
  });
}

function stateOf({ event }: BlockEntry, played: Seconds, length: Seconds): RunItem['state'] {
  if (played >= length - 0.5 || event === 'done') return 'done';
  return event === 'skipped' ? 'skipped' : 'open';
}

/** Rests before the last thing played are over. */
function withRests(items: readonly RunItem[]): readonly RunItem[] {
  const last = items.findLastIndex((item) => !isRest(item) && (item.played > 0 || item.state !== 'open'));
  return items.map((item, i) => (isRest(item) && i < last ? { ...item, state: 'done', played: item.length } : item));
}

/** The items as they stood after these records, in the order in which they were written. */
export const withRecords = (items: readonly RunItem[], records: readonly BlockEntry[]): readonly RunItem[] =>
  withRests(records.filter(({ block }) => block !== BREAK).reduce(withRecord, items));
