/** What was played, by day and kind of work: tone and body included, with how tense it felt and what was noted. */
import { dateOf, dayNumber, dayPlus } from '../common/days.ts';
import { BREAK, type BlockEntry, type DayEntry } from '../diary/entry.ts';
import { type Exercise, KINDS, type Kind } from '../plan/routine/exercise.ts';
import type { Minutes, Routine } from '../plan/routine/routine.ts';
import { lastMondays } from './calendar-weeks.ts';

export type ByKind = Readonly<Record<Kind, Minutes>>;

/** A day, or the days of a week. */
export interface MinutesPlayed {
  /** Its first day, 'YYYY-MM-DD'. */
  readonly from: string;
  readonly byKind: ByKind;
  readonly total: Minutes;
  /** On how many days something was played. */
  readonly days: number;
  /** Mean of what the player answered, 0 not at all to 4 very; null without an answer. */
  readonly tension: number | null;
}

const NONE = Object.fromEntries(KINDS.map((kind) => [kind, 0])) as ByKind;

export interface Played {
  readonly records: readonly DayEntry[];
  readonly exercises: readonly Exercise[];
  readonly routines: readonly Routine[];
}

/** What kind of work a block was: its exercise's, or its own in its routine; body where neither is known. */
function kindOf({ exercises, routines }: Played, { exercise, routine, part, block }: BlockEntry): Kind {
  const known = exercises.find(({ id }) => id === exercise);
  if (known) return known.kind;
  const parts = routines.find(({ id }) => id === routine)?.parts ?? [];
  const kind = parts.find(({ id }) => id === part)?.blocks.find(({ id }) => id === block)?.kind;
  return kind === undefined || kind === 'rest' ? 'body' : kind;
}

/** Of a block's reports on one day the last carries what was played of it; rests do not count. */
function lastReports(records: readonly DayEntry[]): readonly BlockEntry[] {
  const newest = new Map<string, BlockEntry>();
  for (const record of records) {
    if (record.kind !== 'block' || record.block === BREAK) continue;
    newest.set(`${record.day}/${record.routine}/${record.part}/${record.block}`, record);
  }
  return [...newest.values()];
}

function sumOf(played: Played, from: string, blocks: readonly BlockEntry[], levels: readonly number[]): MinutesPlayed {
  const byKind = { ...NONE };
  for (const block of blocks) byKind[kindOf(played, block)] += block.played / 60;
  return {
    from,
    byKind,
    total: blocks.reduce((sum, block) => sum + block.played / 60, 0),
    days: new Set(blocks.filter((block) => block.played > 0).map(({ day }) => day)).size,
    tension: levels.length === 0 ? null : levels.reduce((a, b) => a + b, 0) / levels.length,
  };
}

/** Stretches of so many days each, by their first days. */
function stretches(played: Played, firsts: readonly string[], days: number): readonly MinutesPlayed[] {
  const reports = lastReports(played.records);
  return firsts.map((from) => {
    const to = dayPlus(from, days - 1);
    const isIn = ({ day }: { readonly day: string }): boolean => day >= from && day <= to;
    const levels = played.records.flatMap((one) => (one.kind === 'tension' && isIn(one) ? [one.level] : []));
    return sumOf(played, from, reports.filter(isIn), levels);
  });
}

/** The last weeks up to the one of today, the earliest first. */
export const minutesByWeek = (played: Played, today: string, weeks: number): readonly MinutesPlayed[] =>
  stretches(played, lastMondays(today, weeks).map(dateOf), 7);

/** The last days up to today, the earliest first. */
export const minutesByDays = (played: Played, today: string, days: number): readonly MinutesPlayed[] =>
  stretches(
    played,
    Array.from({ length: days }, (_, index) => dateOf(dayNumber(today) - (days - 1 - index))),
    1,
  );

/** The last notes, the newest first. */
export const lastNotes = (records: readonly DayEntry[], most: number): readonly { day: string; text: string }[] =>
  records
    .flatMap((record) => (record.kind === 'note' ? [{ day: record.day, text: record.text }] : []))
    .slice(-most)
    .toReversed();
