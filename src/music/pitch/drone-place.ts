/** In which octave a drone stands, what voices it has in a key, and what it is called when it was moved. */
import type { Drone } from '../sound/sound-commands.ts';
import type { MidiNote, Semitones } from '../../common/units.ts';
import { midiOf } from './note-names.ts';
import type { Scale } from './scales.ts';
import { fifthsOf, tonicAt } from './keys.ts';

/** Where the drone stands against the notes that are played: below them (or with the lowest), among them, above. */
export const DRONE_OCTAVES = ['below', 'at', 'above'] as const;
export type DroneOctave = (typeof DRONE_OCTAVES)[number];

/** How a player likes a drone, where no file says otherwise. */
export interface DroneLiked {
  readonly timbre: Drone['timbre'];
  readonly octave: DroneOctave;
}

export const USUAL_DRONE: DroneLiked = { timbre: 'reed', octave: 'below' };

/** Concert pitch of the lowest and the highest note that are played. */
export interface Played {
  readonly lowest: MidiNote;
  readonly highest: MidiNote;
}

/** A0, 27.5 Hz: below it a tone is felt more than heard. Common practice, no source. */
const LOWEST: MidiNote = 21;
/** C7: above it a steady tone hurts sooner than it helps. Common practice, no source. */
const HIGHEST: MidiNote = 96;

const above = (from: MidiNote, midi: MidiNote): Semitones => (((midi - from) % 12) + 12) % 12;

const within = (tonic: MidiNote): MidiNote =>
  tonic < LOWEST ? LOWEST + above(LOWEST, tonic) : tonic > HIGHEST ? HIGHEST - above(tonic, HIGHEST) : tonic;

/**
 * The octave of a tonic, given in any: `dronePlace(60, { lowest: 52, highest: 67 }, 'below')` is 48, 'at' 60 and
 * 'above' 72. What lies beyond hearing or bearing comes back by octaves.
 */
export function dronePlace(tonic: MidiNote, { lowest, highest }: Played, octave: DroneOctave): MidiNote {
  if (octave === 'above') return within(highest + above(highest, tonic));
  return within(octave === 'at' ? lowest + above(lowest, tonic) : lowest - above(tonic, lowest));
}

/** The third of a scale; of one with both, as the chromatic, the major one; null where it has none. */
function thirdOf({ up, down }: Pick<Scale, 'up' | 'down'>): Drone['voices'][number] | null {
  const has = (interval: string): boolean => up.includes(interval) || down.includes(interval);
  return has('3M') ? 'major-third' : has('3m') ? 'minor-third' : null;
}

const isThird = (voice: Drone['voices'][number]): boolean => voice.endsWith('-third');

/**
 * The voices that go with a key: a third that is not its own would quarrel with it. `own` is the scale that the key
 * names (A minor), or null; `scale` is what is played in it.
 */
export function voicesIn(own: Scale | null, scale: Scale, voices: Drone['voices']): Drone['voices'] {
  const third = thirdOf(own ?? scale);
  const fitting = voices.filter((voice) => !isThird(voice) || voice === third);
  return fitting.length > 0 ? fitting : ['tonic'];
}

/** `steppedName('Bb', 1)` is 'B': the nearest name on the line of fifths, and no more than six signs. */
export function steppedName(tonic: string, step: Semitones): string {
  if (step % 12 === 0) return tonic;
  const near = ((((7 * step + 5) % 12) + 12) % 12) - 5;
  const fifths = fifthsOf(tonic) + near;
  return tonicAt(fifths > 6 ? fifths - 12 : fifths < -6 ? fifths + 12 : fifths);
}

/** Any octave of a written tonic, as it sounds. */
export const concertTonic = (tonic: string, transposition: Semitones): MidiNote => midiOf(`${tonic}4`) + transposition;
