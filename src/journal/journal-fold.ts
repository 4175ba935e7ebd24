/**
 * From entries to what is known of each line; pure. The result depends on which entries there are, not on
 * the order in which a file or a merge happens to hold them.
 */
import { lineName } from '../ladder/line.ts';
import { type DayEntry, type Entry, type LadderEntry, type UndoEntry, ofDay, ofLadder } from '../diary/entry.ts';
import { addToDays, dayFold, daysKept, entriesOf, withDayEntry } from './day-fold.ts';
import { ordered } from './journal-lines.ts';
import { type LineFold, type LineState, lineBegun, lineStateOf, takeIn, withEntry } from './line-fold.ts';

export interface Fold {
  readonly lines: ReadonlyMap<string, LineState>;
  /**
   * Of the last 400 days before the newest one, in order of their ids. Of the reports on one block
   * of one day only the newest.
   */
  readonly others: readonly DayEntry[];
  /** The newest id and day; null and empty before the first entry. */
  readonly lastId: string | null;
  readonly lastDay: string;
  /** What this sitting added, and what each line it touched was before: enough to take it back. */
  readonly recent: readonly Entry[];
  readonly before: ReadonlyMap<string, LineState | null>;
}

export const EMPTY_FOLD: Fold = {
  lines: new Map(),
  others: [],
  lastId: null,
  lastDay: '',
  recent: [],
  before: new Map(),
};

function undoneIn(entries: readonly Entry[]): ReadonlySet<string> {
  const undone = new Set<string>();
  for (const entry of entries) if (entry.kind === 'undo') undone.add(entry.of);
  return undone;
}

const laterDay = (a: string, b: string): string => (a > b ? a : b);

const earlierDay = (a: string, b: string): string => (a < b ? a : b);

function takeInto(lines: Map<string, LineFold>, entry: LadderEntry): void {
  const key = lineName(entry);
  const line = lines.get(key) ?? lineBegun(entry);
  lines.set(key, line);
  takeIn(line, entry);
}

/**
 * Everything from the beginning. Entries may come in any order.
 * @param today the player's own day by the clock: an entry dated later must not push the days before it out of sight
 */
export function foldAll(unordered: readonly Entry[], today?: string): Fold {
  const entries = ordered(unordered);
  const undone = undoneIn(entries);
  const lines = new Map<string, LineFold>();
  const days = dayFold();
  let lastDay = '';
  for (const entry of entries) {
    lastDay = laterDay(lastDay, entry.day);
    if (undone.has(entry.id)) continue;
    if (ofDay(entry)) addToDays(days, entry);
    else if (ofLadder(entry)) takeInto(lines, entry);
  }
  return {
    ...EMPTY_FOLD,
    lines: new Map([...lines].map(([key, line]) => [key, lineStateOf(line)])),
    others: daysKept(entriesOf(days), earlierDay(lastDay, today ?? lastDay)),
    lastId: entries.at(-1)?.id ?? null,
    lastDay,
  };
}

function withLine(fold: Fold, key: string, state: LineState | null): ReadonlyMap<string, LineState> {
  const lines = new Map(fold.lines);
  if (state) lines.set(key, state);
  else lines.delete(key);
  return lines;
}

function absorbLadder(fold: Fold, entry: LadderEntry): Fold {
  const key = lineName(entry);
  const state = fold.lines.get(key) ?? null;
  const before = fold.before.has(key) ? fold.before : new Map(fold.before).set(key, state);
  return { ...fold, lines: withLine(fold, key, withEntry(state, entry)), before };
}

/** Plays a line's recent entries again, without those taken back. */
function replayed(fold: Fold, key: string, recent: readonly Entry[]): LineState | null {
  const undone = undoneIn(recent);
  const entries = recent.filter(ofLadder).filter((entry) => lineName(entry) === key && !undone.has(entry.id));
  return entries.reduce<LineState | null>(withEntry, fold.before.get(key) ?? null);
}

function absorbUndo(fold: Fold, undo: UndoEntry): Fold | null {
  if (fold.recent.some((entry) => entry.kind === 'undo' && (entry.of === undo.of || entry.id === undo.of))) return fold;
  const taken = fold.recent.find((entry) => entry.id === undo.of);
  // A block's report has replaced the one before it, which must come back.
  if (!taken || taken.kind === 'block') return null;
  if (!ofLadder(taken)) return { ...fold, others: fold.others.filter((other: Entry) => other.id !== taken.id) };
  const key = lineName(taken);
  const state = replayed(fold, key, [...fold.recent, undo]);
  return { ...fold, lines: withLine(fold, key, state) };
}

function absorbed(fold: Fold, entry: Entry): Fold | null {
  if (ofLadder(entry)) return absorbLadder(fold, entry);
  if (entry.kind === 'undo') return absorbUndo(fold, entry);
  return { ...fold, others: withDayEntry(fold.others, entry) };
}

/**
 * One more entry, newer than all before.
 *
 * Null when that cannot be worked out from what the fold remembers (an undo of something from before this
 * sitting, an entry that is not the newest): then fold everything again.
 */
export function absorb(fold: Fold, entry: Entry): Fold | null {
  if (fold.lastId !== null && entry.id <= fold.lastId) return null;
  const next = absorbed(fold, entry);
  if (!next) return null;
  const lastDay = laterDay(fold.lastDay, entry.day);
  const others = lastDay === fold.lastDay ? next.others : daysKept(next.others, entry.day);
  return { ...next, others, lastId: entry.id, lastDay, recent: [...fold.recent, entry] };
}
