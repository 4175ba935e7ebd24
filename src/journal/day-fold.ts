/** What was said about days, entry by entry; pure. */
import type { DayEntry } from '../diary/entry.ts';
import { dayPlus } from '../common/days.ts';

/** Entries of days older than this many before the newest are not folded. */
const KEEP_DAYS = 400;

/** Those of the last `KEEP_DAYS` days before a day; what is dated after it stays. */
export function daysKept(others: readonly DayEntry[], newest: string): readonly DayEntry[] {
  const from = newest === '' ? '' : dayPlus(newest, -KEEP_DAYS);
  return others.filter(({ day }) => day >= from);
}

/** Entries in the order of their ids, while more are taken in. */
export interface DayFold {
  /** Null where a newer report on the same block has taken the place. */
  readonly entries: (DayEntry | null)[];
  /** The day of the newest entry, and where the report on each of its blocks stands. */
  day: string;
  readonly blocks: Map<string, number>;
}

export const dayFold = (): DayFold => ({ entries: [], day: '', blocks: new Map() });

/** Of a block's reports on one day only the newest says anything: it carries what was played so far. */
const blockOf = (entry: DayEntry): string | null =>
  entry.kind === 'block' ? JSON.stringify([entry.routine, entry.part, entry.block]) : null;

/** Adds an entry that is newer than all others; of a block reported on in the same stretch of one day the old goes. */
export function addToDays(fold: DayFold, entry: DayEntry): void {
  if (fold.day !== entry.day) fold.blocks.clear();
  fold.day = entry.day;
  const block = blockOf(entry);
  if (block !== null) {
    const old = fold.blocks.get(block);
    if (old !== undefined) fold.entries[old] = null;
    fold.blocks.set(block, fold.entries.length);
  }
  fold.entries.push(entry);
}

export const entriesOf = ({ entries }: DayFold): readonly DayEntry[] => entries.filter((entry) => entry !== null);

/** One more entry on top of those before; looks back no further than its own day. */
export function withDayEntry(others: readonly DayEntry[], entry: DayEntry): readonly DayEntry[] {
  const block = blockOf(entry);
  if (block === null) return [...others, entry];
  const from = others.findLastIndex(({ day }) => day !== entry.day) + 1;
  return [...others.slice(0, from), ...others.slice(from).filter((old) => blockOf(old) !== block), entry];
}
