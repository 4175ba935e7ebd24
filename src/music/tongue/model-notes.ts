/** How the program plays a drill to the player: how long each note sounds, and how loud. */
import type { Gain } from '../../common/units.ts';
import type { SoundedNote } from '../sound/sound-commands.ts';
import { type Ratio, add, multiply, ratio } from '../time/ratio.ts';
import type { Drill, DrillNote } from './drill.ts';

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
