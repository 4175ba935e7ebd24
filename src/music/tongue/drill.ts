/** A passage with its tonguing: what the strip shows, the voice sounds and the files print. */
import { divide, toNumber } from '../time/ratio.ts';
import type { Bpm, NotesPerSecond } from '../../common/units.ts';
import type { Articulation } from './articulation.ts';
import { unevenly } from './uneven-rhythm.ts';
import type { Passage, PassageNote } from '../pattern/passage.ts';
import { HARD, type Syllables } from './syllables.ts';
import { type TongueStroke, spoken, tongueStrokes } from './tongue-strokes.ts';
import { unfitTonguing } from './unfit-tonguing.ts';

/** One note with what the tongue does. */
export interface DrillNote extends PassageNote {
  readonly stroke: TongueStroke;
  /** What is spoken; '' under a slur, on held notes and in rests. */
  readonly syllable: string;
}

export interface Drill extends Omit<Passage, 'notes'> {
  readonly notes: readonly DrillNote[];
  readonly articulation: Articulation;
  /** The pair that its strokes are spoken with, so that it can be tongued anew. */
  readonly syllables: Syllables;
}

/** Each note begun says how many pulses stand on its beat. */
const pulsed = (strokes: readonly TongueStroke[], pulses: number): readonly string[] =>
  strokes.map((stroke) => (stroke === 'front' || stroke === 'under' ? `${pulses}~` : ''));

/** The strokes are chosen on the even notes, so that a long-short rhythm keeps its T K. */
export function drillOf(passage: Passage, articulation: Articulation, syllables: Syllables = HARD): Drill {
  const strokes = tongueStrokes(passage, articulation);
  const words = articulation.pulses === undefined ? spoken(strokes, syllables) : pulsed(strokes, articulation.pulses);
  const { notes, ...rest } = articulation.rhythm === 'long-short' ? unevenly(passage, 'long-short') : passage;
  const unfit = unfitTonguing(passage, articulation);
  return {
    ...rest,
    remarks: unfit === null ? rest.remarks : [...rest.remarks, unfit],
    articulation,
    syllables,
    notes: notes.map((note, i) => ({ ...note, stroke: strokes[i] ?? 'front', syllable: words[i] ?? '' })),
  };
}

/** Notes per second of the fastest notes at a tempo: beats per minute x notes per beat / 60. */
export function fastestNotes(drill: Drill, bpm: Bpm): NotesPerSecond {
  const lengths = drill.notes.flatMap((note) =>
    note.pitch && !note.tiedFrom ? [toNumber(divide(drill.beat, note.length))] : [],
  );
  return (bpm * Math.max(0, ...lengths)) / 60;
}
