/**
 * From entries to what is known of each line; pure. The result depends on which entries there are, not on
 * the order in which a file or a merge happens to hold them.
 */
import { type Line, lineName } from '../ladder/line.ts';
import { type Climb, startAt, withMarked } from '../ladder/rule/climb.ts';
import { type LineHistory, NO_MARKS, type Tally, climbOf, withMark } from '../ladder/speed/line-history.ts';
import type { Bpm } from '../common/units.ts';
import {
  type DayEntry,
  type Entry,
  type LadderEntry,
  type MarkEntry,
  type TempoEntry,
  type UndoEntry,
  ofDay,
  ofLadder,
} from '../diary/entry.ts';
import { dayPlus } from '../common/days.ts';
import { ordered } from './journal-lines.ts';

/** A rung that was held: the clean repetitions its rule asked for, in a row. */
export interface Best {
  readonly bpm: Bpm;
  /** The player's day on which it was first held. */
  readonly day: string;
  /** Note value of the beat, '1/4'. */
  readonly beat: string;
  readonly notesPerBeat: number;
}

/** Where a line stands. Tallies are in the order of their first marks: within a day tempos come as they were played. */
export interface LineState extends LineHistory {
  readonly line: Line;
  readonly best: Best | null;
  /** The newest mark's beat and notes per beat; an empty text and 0 before the first mark. */
  readonly beat: string;
  readonly notesPerBeat: number;
}

export interface Fold {
  readonly lines: ReadonlyMap<string, LineState>;
  /**
   * Of the last `KEEP_DAYS` days before the newest one, in order of their ids. Of the reports on one block
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

/** Other entries older than this many days before the newest are not folded. */
const KEEP_DAYS = 400;

export const EMPTY_FOLD: Fold = {
  lines: new Map(),
  others: [],
  lastId: null,
  lastDay: '',
  recent: [],
  before: new Map(),
};

type Open<T> = { -readonly [K in keyof T]: T[K] };
type OpenTally = Open<Tally>;
type OpenLine = Open<Omit<LineState, 'tallies'>> & { tallies: OpenTally[] };

const opened = ({ exercise, articulation, key }: Line, bpm: Bpm): OpenLine => ({
  line: { exercise, articulation, key },
  bpm,
  cleanRun: 0,
  missedRun: 0,
  best: null,
  tallies: [],
  lastDay: '',
  beat: '',
  notesPerBeat: 0,
});

/** A copy to write on; only today's tallies are ever written on again. */
const copyOf = (state: LineState): OpenLine => ({
  ...state,
  tallies: state.tallies.map((tally) => (tally.day === state.lastDay ? { ...tally } : tally)),
});

function tallyOf(line: OpenLine, day: string, bpm: Bpm): OpenTally {
  for (let index = line.tallies.length - 1; index >= 0; index -= 1) {
    const tally = line.tallies[index] as OpenTally;
    if (tally.day !== day) break;
    if (tally.bpm === bpm) return tally;
  }
  const tally = { day, bpm, clean: 0, tense: 0, missed: 0 };
  line.tallies.push(tally);
  return tally;
}

/** Where the ladder stands from now on; runs that are over go. */
function stand(line: OpenLine, where: Omit<Climb, 'best'>): void {
  delete line.tenseRun;
  Object.assign(line, where);
}

/** The ladder as its own rule has it; the day and the speed of a new best are kept with it. */
function climb(line: OpenLine, entry: MarkEntry): void {
  const { best, ...where } = withMarked(climbOf(line), entry);
  stand(line, where);
  if (best === null || best === (line.best?.bpm ?? null)) return;
  const { day, beat, notesPerBeat } = entry;
  line.best = { bpm: best, day, beat, notesPerBeat };
}

function mark(line: OpenLine, entry: MarkEntry): void {
  tallyOf(line, entry.day, entry.bpm)[entry.mark] += 1;
  climb(line, entry);
  const { sounded } = entry;
  if (sounded !== undefined)
    line.keys = { ...line.keys, [sounded]: withMark(line.keys?.[sounded] ?? NO_MARKS, entry.mark) };
  line.lastDay = entry.day;
  line.beat = entry.beat;
  line.notesPerBeat = entry.notesPerBeat;
}

function nudge(line: OpenLine, entry: TempoEntry): void {
  const { best: _, ...where } = startAt(entry.next);
  stand(line, where);
}

function apply(line: OpenLine, entry: LadderEntry): void {
  if (entry.kind === 'mark') mark(line, entry);
  else nudge(line, entry);
}

const startOf = (entry: LadderEntry): OpenLine => opened(entry, entry.kind === 'mark' ? entry.bpm : entry.next);

const kept = (others: readonly DayEntry[], lastDay: string): readonly DayEntry[] => {
  const from = lastDay === '' ? '' : dayPlus(lastDay, -KEEP_DAYS);
  return others.filter((entry: Entry) => entry.day >= from);
};

/** Of a block's reports on one day only the newest says anything: it carries what was played so far. */
const isReplaced = (old: DayEntry, by: DayEntry): boolean =>
  old.kind === 'block' &&
  by.kind === 'block' &&
  old.day === by.day &&
  old.block === by.block &&
  old.part === by.part &&
  old.routine === by.routine;

/** Adds an entry that is newer than all others; looks back no further than its own day. */
function push(others: DayEntry[], entry: DayEntry): void {
  for (let index = others.length - 1; index >= 0; index -= 1) {
    const old = others[index] as DayEntry;
    if (old.day !== entry.day) break;
    if (isReplaced(old, entry)) others.splice(index, 1);
  }
  others.push(entry);
}

const pushed = (others: readonly DayEntry[], entry: DayEntry): readonly DayEntry[] => {
  const copy = [...others];
  push(copy, entry);
  return copy;
};

function undoneIn(entries: readonly Entry[]): ReadonlySet<string> {
  const undone = new Set<string>();
  for (const entry of entries) if (entry.kind === 'undo') undone.add(entry.of);
  return undone;
}

const laterDay = (a: string, b: string): string => (a > b ? a : b);

/** Everything from the beginning. Entries may come in any order. */
export function foldAll(unordered: readonly Entry[]): Fold {
  const entries = ordered(unordered);
  const undone = undoneIn(entries);
  const lines = new Map<string, OpenLine>();
  const others: DayEntry[] = [];
  let lastDay = '';
  for (const entry of entries) {
    lastDay = laterDay(lastDay, entry.day);
    if (undone.has(entry.id)) continue;
    if (ofDay(entry)) push(others, entry);
    if (!ofLadder(entry)) continue;
    const key = lineName(entry);
    const line = lines.get(key) ?? startOf(entry);
    lines.set(key, line);
    apply(line, entry);
  }
  return { ...EMPTY_FOLD, lines, others: kept(others, lastDay), lastId: entries.at(-1)?.id ?? null, lastDay };
}

/** One more entry of a line, on top of what is known of it. */
export function withEntry(state: LineState | null, entry: LadderEntry): LineState {
  const line = state ? copyOf(state) : startOf(entry);
  apply(line, entry);
  return line;
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
  return { ...fold, others: pushed(fold.others, entry) };
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
  const others = lastDay === fold.lastDay ? next.others : kept(next.others, lastDay);
  return { ...next, others, lastId: entry.id, lastDay, recent: [...fold.recent, entry] };
}
