/** Which keys and articulations of an exercise were played, how far and how long ago; pure. */
import { ALL_KEYS, lineName } from '../ladder/line.ts';
import { dayNumber } from '../common/days.ts';

import type { Marked } from './line-with-marks.ts';

import { NO_MARKS, cleanShare, countsOf, repetitions } from '../ladder/speed/line-history.ts';
import type { Bpm } from '../common/units.ts';
import type { Exercise } from '../plan/routine/exercise.ts';

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
  const own = marked.lines.get(lineName({ exercise, articulation, key }));
  // All keys on one ladder: its line knows which of them sounded.
  const shared = own ? undefined : marked.lines.get(lineName({ exercise, articulation, key: ALL_KEYS }));
  const counts = own ? countsOf(own) : (shared?.keys?.[key] ?? NO_MARKS);
  const state = own ?? (repetitions(counts) > 0 ? shared : undefined);
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
