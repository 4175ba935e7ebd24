/** The bests of all lines; pure. */
import type { Fold } from '../journal/journal-fold.ts';
import type { LineState } from '../journal/line-fold.ts';
import type { Line } from '../ladder/line.ts';
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
  /** Rounded to thousandths; null with `bpm`, and for own material whose notes nobody has said. */
  readonly notesPerSecond: NotesPerSecond | null;
  /** The player's day on which the best was first held, 'YYYY-MM-DD'. */
  readonly day: string | null;
  /** Where the ladder of the line goes on. */
  readonly next: Bpm;
}

/** Of which lines nothing is claimed in notes a second. */
type Unknown = (line: Line) => boolean;

const thousandths = (value: number): number => Math.round(value * 1000) / 1000;

function rowOf({ line, best, bpm, beat }: LineState, isUnknown: Unknown): BestRow {
  const held = best && !isUnknown(line) ? thousandths(notesPerSecond(best.bpm, best.notesPerBeat)) : null;
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
export const bestsOf = (fold: Fold, isUnknown: Unknown = () => false): readonly BestRow[] =>
  [...fold.lines.values()].map((state) => rowOf(state, isUnknown)).sort(byName);
