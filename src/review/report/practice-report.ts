/** What a stretch of days held, for a reader who was not there: a teacher, a student, a doctor; pure. */
import { dayNumber } from '../../common/days.ts';
import type { Bpm, NotesPerSecond } from '../../common/units.ts';
import { type DayEntry, type Entry, type TensionLevel, ofDay } from '../../diary/entry.ts';
import { foldAll } from '../../journal/journal-fold.ts';
import type { LineState } from '../../journal/line-fold.ts';
import { type Line, lineName } from '../../ladder/line.ts';
import { NO_MARKS, type MarkCounts, cleanShare, repetitions, summed } from '../../ladder/speed/line-history.ts';
import { safeTempo } from '../../ladder/speed/safe-tempo.ts';
import { type Knowledge, estimateOf, learnAllLines } from '../../ladder/speed/speed-knowledge.ts';
import { notesPerSecond } from '../../music/time/meter.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import type { Minutes } from '../../plan/routine/routine.ts';
import { minutesByDay } from '../../plan/today/week-load.ts';

/** What a page is about, and what of the private things may be on it. */
export interface ReportAsked {
  /** First and last day, 'YYYY-MM-DD', both included. */
  readonly from: string;
  readonly to: string;
  readonly notes: boolean;
  readonly tension: boolean;
  /** False where the speed estimates are not wanted: they take most of the time. */
  readonly estimates?: boolean;
}

export interface DayOfReport {
  readonly day: string;
  /** Played in routines. */
  readonly minutes: Minutes;
  readonly counts: MarkCounts;
}

export interface LineOfReport extends Line {
  readonly title: string;
  /** In the stretch. */
  readonly counts: MarkCounts;
  readonly clean: number | null;
  readonly start: Bpm | null;
  readonly target: Bpm | null;
  readonly best: Bpm | null;
  readonly bestDay: string | null;
  readonly bestNotes: NotesPerSecond | null;
  /** The tempo of nine clean in ten with its 80 % interval; null while it is not known well enough. */
  readonly now: { readonly bpm: Bpm; readonly low: Bpm | null; readonly high: Bpm | null } | null;
  /** On each day played, the highest tempo that was clean at least once; null where none was. */
  readonly days: readonly { readonly day: string; readonly bpm: Bpm | null }[];
  readonly lastDay: string;
}

export interface PracticeReport {
  readonly asked: ReportAsked;
  /** Every day on which something was played or marked, the earliest first. */
  readonly days: readonly DayOfReport[];
  readonly minutesByKind: readonly (readonly [kind: string, minutes: Minutes])[];
  /** The furthest from their targets first. */
  readonly lines: readonly LineOfReport[];
  /** Null where they were not asked for. */
  readonly notes: readonly { readonly day: string; readonly text: string }[] | null;
  readonly tension: readonly { readonly day: string; readonly level: TensionLevel; readonly title: string }[] | null;
}

/** Without what was taken back. */
export function counting(entries: readonly Entry[]): readonly Entry[] {
  const undone = new Set(entries.flatMap((entry) => (entry.kind === 'undo' ? [entry.of] : [])));
  return entries.filter(({ id }) => !undone.has(id));
}

type Titles = ReadonlyMap<string, Exercise>;
const titleOf = (exercises: Titles, id: string): string => exercises.get(id)?.title ?? id;

const isIn = ({ from, to }: ReportAsked, day: string): boolean => day >= from && day <= to;

function daysOf(lines: readonly LineState[], records: readonly DayEntry[], asked: ReportAsked): readonly DayOfReport[] {
  const minutes = minutesByDay(records);
  const counts = new Map<string, MarkCounts>();
  for (const { day, ...marks } of lines.flatMap(({ tallies }) => tallies))
    if (isIn(asked, day)) counts.set(day, summed(counts.get(day) ?? NO_MARKS, marks));
  const days = [...new Set([...minutes.keys(), ...counts.keys()])].sort();
  return days.map((day) => ({ day, minutes: minutes.get(day) ?? 0, counts: counts.get(day) ?? NO_MARKS }));
}

/** Minutes of work by what kind of exercise it was; blocks without one count as 'other'. */
function kindsOf(records: readonly DayEntry[], exercises: Titles): PracticeReport['minutesByKind'] {
  const byKind = new Map<string, DayEntry[]>();
  for (const record of records) {
    if (record.kind !== 'block') continue;
    const kind = (record.exercise !== null && exercises.get(record.exercise)?.kind) || 'other';
    byKind.set(kind, [...(byKind.get(kind) ?? []), record]);
  }
  const sums = [...byKind].map(([kind, of]): readonly [string, Minutes] => [
    kind,
    [...minutesByDay(of).values()].reduce((sum, minutes) => sum + minutes, 0),
  ]);
  return sums.filter(([, minutes]) => minutes > 0).sort(([, a], [, b]) => b - a);
}

function nowOf(
  knowledge: Knowledge,
  state: LineState,
  exercise: Exercise | undefined,
  day: string,
): LineOfReport['now'] {
  if (!exercise || knowledge.lines.size === 0) return null;
  const { line, notesPerBeat } = state;
  const rule = lineRule(exercise, line.articulation);
  const safe = safeTempo(estimateOf(knowledge, { line, notesPerBeat, rule, day: dayNumber(day) }));
  return safe.known === 'near' ? { bpm: safe.bpm, low: safe.low, high: safe.high } : null;
}

function cleanByDay(state: LineState, asked: ReportAsked): LineOfReport['days'] {
  const highest = new Map<string, Bpm | null>();
  for (const { day, bpm, clean } of state.tallies) {
    if (!isIn(asked, day)) continue;
    const before = highest.get(day) ?? null;
    highest.set(day, clean > 0 ? Math.max(bpm, before ?? bpm) : before);
  }
  return [...highest].map(([day, bpm]) => ({ day, bpm })).sort((a, b) => (a.day < b.day ? -1 : 1));
}

function lineOf(state: LineState, knowledge: Knowledge, exercises: Titles, asked: ReportAsked): LineOfReport {
  const { line, best, lastDay } = state;
  const exercise = exercises.get(line.exercise);
  const rule = exercise && lineRule(exercise, line.articulation);
  const counts = state.tallies.filter(({ day }) => isIn(asked, day)).reduce<MarkCounts>(summed, NO_MARKS);
  return {
    ...line,
    title: titleOf(exercises, line.exercise),
    counts,
    clean: cleanShare(counts),
    start: rule?.start ?? null,
    target: rule?.target ?? null,
    best: best?.bpm ?? null,
    bestDay: best?.day ?? null,
    bestNotes: best && !exercise?.notesUnknown ? notesPerSecond(best.bpm, best.notesPerBeat) : null,
    now: nowOf(knowledge, state, exercise, asked.to),
    days: cleanByDay(state, asked),
    lastDay,
  };
}

/** How much of the way to the target is done, 0 to 1; a line without a target comes last. */
const doneOf = ({ best, now, target }: LineOfReport): number => (target ? (now?.bpm ?? best ?? 0) / target : Infinity);

const byNeed = (a: LineOfReport, b: LineOfReport): number => {
  const by = doneOf(a) - doneOf(b);
  return by || repetitions(b.counts) - repetitions(a.counts) || (lineName(a) < lineName(b) ? -1 : 1);
};

/** @param entries all of the journal, in the order of their ids */
export function practiceReport(entries: readonly Entry[], exercises: Titles, asked: ReportAsked): PracticeReport {
  const until = entries.filter(({ day, kind }) => day <= asked.to || kind === 'undo');
  const states = [...foldAll(until).lines.values()];
  const records = counting(until)
    .filter(ofDay)
    .filter(({ day }) => isIn(asked, day));
  const knowledge = learnAllLines(asked.estimates === false ? [] : states);
  const lines = states.filter(({ tallies }) => tallies.some(({ day }) => isIn(asked, day)));
  return {
    asked,
    days: daysOf(lines, records, asked),
    minutesByKind: kindsOf(records, exercises),
    lines: lines.map((state) => lineOf(state, knowledge, exercises, asked)).sort(byNeed),
    notes: asked.notes
      ? records.flatMap((one) => (one.kind === 'note' ? [{ day: one.day, text: one.text }] : []))
      : null,
    tension: asked.tension ? records.flatMap((record) => tensionIn(record, exercises)) : null,
  };
}

function tensionIn(record: DayEntry, exercises: Titles): NonNullable<PracticeReport['tension']> {
  if (record.kind !== 'tension') return [];
  const { day, level, exercise } = record;
  return [{ day, level, title: exercise === null ? '' : titleOf(exercises, exercise) }];
}
