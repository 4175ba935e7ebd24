/** What the records say about blocks and exercises up to a day: when each was last played and how it went. */
import { type LineHistory } from '../../ladder/speed/line-history.ts';
import { BREAK, type BlockEntry, type DayEntry } from '../../diary/entry.ts';
import type { Seconds } from '../../common/units.ts';
import { dayPlus } from '../../common/days.ts';

/** Where a block stands today. */
interface BlockToday {
  readonly event: BlockEntry['event'];
  readonly played: Seconds;
  readonly length: Seconds;
  readonly exercise: string | null;
}

/** How an exercise went in the last fortnight that it was played in. */
export interface RecentForm {
  readonly lastDay: string;
  /** Share of clean repetitions, null before the first. */
  readonly clean: number | null;
  /** Mean of its lines' bests, null before the first. */
  readonly best: number | null;
}

export interface PlayedBefore {
  readonly day: string;
  /** The first day that anything was played on; what was never played waits since then. */
  readonly firstDay: string;
  /** By `blockKey`: the last day before today on which the block was played for at least half its length. */
  readonly blockDay: ReadonlyMap<string, string>;
  /** By `blockKey`. */
  readonly today: ReadonlyMap<string, BlockToday>;
  /** By exercise. */
  readonly form: ReadonlyMap<string, RecentForm>;
}

export const blockKey = (routine: string, part: string, block: string): string => `${routine}/${part}/${block}`;

const isDone = (record: BlockEntry): boolean => record.event === 'done' || record.played >= record.length / 2;

const FORTNIGHT = 14;

/** Marks of the last fortnight before the line was last played, so that a lay-off does not empty the share. */
function formOf(lines: readonly LineHistory[]): RecentForm {
  const lastDay = lines.reduce((latest, line) => (line.lastDay > latest ? line.lastDay : latest), '');
  // Days as texts stand in order: ten years of them are compared without reading a single date.
  const since = lastDay === '' ? '' : dayPlus(lastDay, 1 - FORTNIGHT);
  const recent = lines.flatMap(({ tallies }) => tallies).filter(({ day }) => day >= since);
  const sum = (of: 'clean' | 'tense' | 'missed'): number => recent.reduce((n, tally) => n + tally[of], 0);
  const all = sum('clean') + sum('tense') + sum('missed');
  const bests = lines.flatMap(({ best }) => (best === null ? [] : [best.bpm]));
  return {
    lastDay,
    clean: all === 0 ? null : sum('clean') / all,
    best: bests.length === 0 ? null : bests.reduce((a, b) => a + b, 0) / bests.length,
  };
}

function byExercise(lines: readonly LineHistory[]): ReadonlyMap<string, readonly LineHistory[]> {
  const groups = new Map<string, LineHistory[]>();
  for (const line of lines) {
    const group = groups.get(line.line.exercise);
    if (group === undefined) groups.set(line.line.exercise, [line]);
    else group.push(line);
  }
  return groups;
}

function withDay(form: Map<string, RecentForm>, exercise: string, day: string): void {
  const known = form.get(exercise) ?? { lastDay: '', clean: null, best: null };
  if (day > known.lastDay) form.set(exercise, { ...known, lastDay: day });
}

/** Folds records in the order in which they were written; days after `day` are left out. */
export function playedBefore(day: string, records: readonly DayEntry[], lines: readonly LineHistory[]): PlayedBefore {
  const blockDay = new Map<string, string>();
  const today = new Map<string, BlockToday>();
  const form = new Map([...byExercise(lines)].map(([exercise, group]) => [exercise, formOf(group)]));
  for (const record of records) {
    if (record.kind !== 'block' || record.day > day || record.block === BREAK) continue;
    const key = blockKey(record.routine, record.part, record.block);
    if (record.day === day) today.set(key, record);
    else if (isDone(record)) blockDay.set(key, record.day);
    if (record.exercise !== null && isDone(record)) withDay(form, record.exercise, record.day);
  }
  const days = records.flatMap((record) => (record.kind === 'block' ? [record.day] : []));
  return { day, firstDay: days.reduce((first, one) => (one < first ? one : first), day), blockDay, today, form };
}
