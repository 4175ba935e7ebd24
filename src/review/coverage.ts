/** Which keys and articulations of an exercise were played, how far and how long ago; pure. */
import { lineId } from '../plan/exercise.ts';
import type { Marked } from './marked.ts';
import { dayNumber } from '../ladder/day.ts';
import { NO_MARKS, cleanShare, countsOf, repetitions } from '../ladder/history.ts';
import type { Bpm } from '../music/units.ts';
import type { Exercise } from '../plan/exercise.ts';

/** One key in one articulation. */
export interface Cell {
  readonly key: string;
  readonly articulation: string;
  readonly repetitions: number;
  /** Share of clean repetitions, 0 to 1; null for a cell that was never played. */
  readonly clean: number | null;
  readonly best: Bpm | null;
  /** Whole days since it was last marked; null if it never was. */
  readonly daysAgo: number | null;
}

export interface Coverage {
  readonly exercise: string;
  readonly title: string;
  readonly keys: readonly string[];
  /** One row for each articulation, one cell for each key. */
  readonly rows: readonly { readonly articulation: string; readonly cells: readonly Cell[] }[];
  /** Share of the cells that were played at least once, 0 to 1. */
  readonly played: number;
}

function cellOf(marked: Marked, exercise: string, articulation: string, key: string, today: string): Cell {
  const state = marked.lines.get(lineId({ exercise, articulation, key }));
  const counts = state ? countsOf(state) : NO_MARKS;
  return {
    key,
    articulation,
    repetitions: repetitions(counts),
    clean: cleanShare(counts),
    best: state?.best?.bpm ?? null,
    daysAgo: state?.lastDay ? Math.max(0, dayNumber(today) - dayNumber(state.lastDay)) : null,
  };
}

/** Coverage of an exercise's own keys and articulations. */
export function coverageOf(marked: Marked, { id, title, keys, articulations }: Exercise, today: string): Coverage {
  const rows = articulations.map((articulation) => ({
    articulation,
    cells: keys.map((key) => cellOf(marked, id, articulation, key, today)),
  }));
  const cells = rows.flatMap((row) => row.cells);
  const played = cells.filter((cell) => cell.repetitions > 0).length / Math.max(1, cells.length);
  return { exercise: id, title, keys, rows, played };
}
