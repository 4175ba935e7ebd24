/** A passage with its tonguing: what the strip shows, the voice sounds and the files print. */
import type { Articulation } from './articulation.ts';
import { unevenly } from './uneven-rhythm.ts';
import type { Passage, PassageNote } from '../pattern/passage.ts';
import { type Ratio, add, divide, multiply, ratio, toNumber } from '../time/ratio.ts';
import type { SoundedNote } from '../sound/sound-commands.ts';
import { HARD, type Syllables } from './syllables.ts';
import { type TongueStroke, spoken, tongueStrokes } from './tongue-strokes.ts';
import { unfitTonguing } from './unfit-tonguing.ts';
import type { Bpm, Gain, NotesPerSecond } from '../../common/units.ts';

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

/** The first note of each beat is a little stronger, the first of the bar a little more. */
const gainOf = (note: DrillNote): Gain => (note.inBeat.n > 0 ? 0.8 : note.beat > 0 ? 0.9 : 1);

/** Tongued notes leave a little air before the next; slurred ones run into it. */
const TONGUED = ratio(7, 8);

const ends = (notes: readonly DrillNote[], i: number): boolean => notes[i + 1]?.stroke !== 'under';

/** The drill as sound, concert pitch, rests left out, ties made one note: for `Span.model`. */
export function soundedNotes(drill: Drill): readonly SoundedNote[] {
  const { notes } = drill;
  return notes.flatMap((note, i): readonly SoundedNote[] => {
    if (!note.pitch || note.tiedFrom) return [];
    let [length, last]: [Ratio, number] = [note.length, i];
    while (notes[last]?.tiedTo) {
      last += 1;
      length = add(length, notes[last]?.length ?? ratio(0));
    }
    const sounds = ends(notes, last) ? multiply(length, TONGUED) : length;
    return [
      { at: note.at, length: sounds, midi: note.pitch.concert, gain: gainOf(note), slurred: note.stroke === 'under' },
    ];
  });
}

/** Notes per second of the fastest notes at a tempo: beats per minute x notes per beat / 60. */
export function fastestNotes(drill: Drill, bpm: Bpm): NotesPerSecond {
  const lengths = drill.notes.flatMap((note) =>
    note.pitch && !note.tiedFrom ? [toNumber(divide(drill.beat, note.length))] : [],
  );
  return (bpm * Math.max(0, ...lengths)) / 60;
}
