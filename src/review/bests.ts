/** The bests of all lines; pure. */
import type { Fold } from '../journal/journal-fold.ts';
import type { LineState } from '../journal/line-fold.ts';
import { notesPerSecond } from '../music/time/meter.ts';
import type { Bpm, NotesPerSecond } from '../common/units.ts';

export interface BestRow {
  readonly exercise: string;
  readonly articulation: string;
  readonly key: string;
  /** Null while no rung was held. */
  readonly bpm: Bpm | null;
  /** Note value of the beat, '1/4'. */
  readonly beat: string;
  /** Rounded to thousandths; null with `bpm`. */
  readonly notesPerSecond: NotesPerSecond | null;
  /** The player's day on which the best was first held, 'YYYY-MM-DD'. */
  readonly day: string | null;
  /** Where the ladder of the line goes on. */
  readonly next: Bpm;
}

const thousandths = (value: number): number => Math.round(value * 1000) / 1000;

function rowOf({ line, best, bpm, beat }: LineState): BestRow {
  const held = best ? thousandths(notesPerSecond(best.bpm, best.notesPerBeat)) : null;
  return {
    ...line,
    bpm: best?.bpm ?? null,
    beat: best?.beat ?? beat,
    notesPerSecond: held,
    day: best?.day ?? null,
    next: bpm,
  };
}

const byName = (a: BestRow, b: BestRow): number =>
  a.exercise.localeCompare(b.exercise) || a.articulation.localeCompare(b.articulation) || a.key.localeCompare(b.key);

/** Every line that was ever marked, by exercise, articulation and key. */
export const bestsOf = (fold: Fold): readonly BestRow[] => [...fold.lines.values()].map(rowOf).sort(byName);
