/**
 * One line, entry by entry: its marks by day and tempo, its ladder, its best; pure. A step costs the same however
 * many marks, tempos or keys came before it.
 */
import { type Line } from '../ladder/line.ts';
import { type Climb, startAt, withMarked } from '../ladder/rule/climb.ts';
import { type LineHistory, type MarkCounts, NO_MARKS, type Tally, climbOf } from '../ladder/speed/line-history.ts';
import type { Mark } from '../ladder/rule/ladder-rule.ts';
import type { Bpm } from '../common/units.ts';
import type { LadderEntry, MarkEntry, TempoEntry } from '../diary/entry.ts';

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

type Open<T> = { -readonly [K in keyof T]: T[K] };
type OpenTally = Open<Tally>;
type OpenCounts = Open<MarkCounts>;
type OpenLine = Open<Omit<LineState, 'tallies' | 'keys'>> & { tallies: OpenTally[] };

/** A line while entries are taken in, with what finds a tally or a key at once. */
export interface LineFold {
  readonly line: OpenLine;
  /** Tallies of the newest day, by tempo. */
  readonly newest: Map<Bpm, OpenTally>;
  /** Null where no key of the line's was named. */
  keys: Map<string, OpenCounts> | null;
}

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

/** A line that its first entry begins. */
export const lineBegun = (entry: LadderEntry): LineFold => ({
  line: opened(entry, entry.kind === 'mark' ? entry.bpm : entry.next),
  newest: new Map(),
  keys: null,
});

/** The tallies at the end that are of one day: only these are ever written on again. */
function newestFrom(tallies: readonly Tally[]): number {
  let from = tallies.length;
  while (from > 0 && tallies[from - 1]?.day === tallies.at(-1)?.day) from -= 1;
  return from;
}

/** A line to go on with; the state itself is not changed. */
function reopened({ keys, ...state }: LineState): LineFold {
  const from = newestFrom(state.tallies);
  const newest = state.tallies.slice(from).map((tally): OpenTally => ({ ...tally }));
  return {
    line: { ...state, tallies: [...state.tallies.slice(0, from), ...newest] },
    newest: new Map(newest.map((tally) => [tally.bpm, tally])),
    keys: keys ? new Map(Object.entries(keys).map(([key, counts]) => [key, { ...counts }])) : null,
  };
}

function tallyOf({ line, newest }: LineFold, day: string, bpm: Bpm): OpenTally {
  if (line.tallies.at(-1)?.day !== day) newest.clear();
  const found = newest.get(bpm);
  if (found) return found;
  const tally = { day, bpm, clean: 0, tense: 0, missed: 0 };
  newest.set(bpm, tally);
  line.tallies.push(tally);
  return tally;
}

function countKey(fold: LineFold, key: string, verdict: Mark): void {
  fold.keys ??= new Map();
  const counts = fold.keys.get(key) ?? { ...NO_MARKS };
  counts[verdict] += 1;
  fold.keys.set(key, counts);
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

function mark(fold: LineFold, entry: MarkEntry): void {
  const { line } = fold;
  tallyOf(fold, entry.day, entry.bpm)[entry.mark] += 1;
  climb(line, entry);
  if (entry.sounded !== undefined) countKey(fold, entry.sounded, entry.mark);
  line.lastDay = entry.day;
  line.beat = entry.beat;
  line.notesPerBeat = entry.notesPerBeat;
}

function nudge({ line }: LineFold, entry: TempoEntry): void {
  const { best: _, ...where } = startAt(entry.next);
  stand(line, where);
}

/** Takes the next entry of the line in. */
export function takeIn(fold: LineFold, entry: LadderEntry): void {
  if (entry.kind === 'mark') mark(fold, entry);
  else nudge(fold, entry);
}

/** What is then known of the line. */
export const lineStateOf = ({ line, keys }: LineFold): LineState =>
  keys === null ? line : { ...line, keys: Object.fromEntries(keys) };

/** One more entry of a line, on top of what is known of it. */
export function withEntry(state: LineState | null, entry: LadderEntry): LineState {
  const fold = state ? reopened(state) : lineBegun(entry);
  takeIn(fold, entry);
  return lineStateOf(fold);
}
