/** The map of tendencies: where each written note lay over the weeks, from what was heard of it. */
import { dayPlus } from '../common/days.ts';
import type { DayEntry, HeardEntry, HeardTendency } from '../diary/entry.ts';

export interface NoteOnMap extends HeardTendency {
  /** Recordings it was heard in. */
  readonly recordings: number;
}

const ofHeard = (entry: DayEntry): entry is HeardEntry => entry.kind === 'heard';

/** Half of the values lie below; of an even number the mean of the two in the middle. */
function middleOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  const [low, high] = [sorted[sorted.length % 2 === 1 ? half : half - 1] ?? 0, sorted[half] ?? 0];
  return Math.round(((low + high) / 2) * 10) / 10;
}

function onMap(all: readonly HeardTendency[]): NoteOnMap | null {
  const [first] = all;
  if (!first) return null;
  const over = (figure: (one: HeardTendency) => number): number => middleOf(all.map(figure));
  return {
    name: first.name,
    written: first.written,
    notes: all.reduce((sum, { notes }) => sum + notes, 0),
    recordings: all.length,
    cents: over(({ cents }) => cents),
    beginning: over(({ beginning }) => beginning),
    middle: over(({ middle }) => middle),
    end: over(({ end }) => end),
    spread: over(({ spread }) => spread),
  };
}

/**
 * By written note, the lowest first; of one instrument, and of the last so many weeks before today. C sharp and
 * D flat are one fingering, so one note here, under the name that came first.
 */
export function tendencyMap(
  entries: readonly DayEntry[],
  instrument: string,
  today: string,
  weeks: number,
): readonly NoteOnMap[] {
  const since = dayPlus(today, -7 * weeks);
  const own = entries.filter(ofHeard).filter((entry) => entry.instrument === instrument && entry.day > since);
  const notes = own.flatMap((entry) => entry.notes);
  const written = [...new Set(notes.map((note) => note.written))].toSorted((a, b) => a - b);
  return written.flatMap((number) => onMap(notes.filter((note) => note.written === number)) ?? []);
}
