/** What putting a line on the stand needs besides its history, for the player's instrument. */
import { instrumentNamed } from '../music/instruments.ts';
import type { Drone } from '../music/sound.ts';
import type { Hertz, MidiNote, Semitones } from '../music/units.ts';
import type { Prepare } from '../practice/stand.ts';

const NATURALS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const ALTERATIONS: Readonly<Record<string, number>> = { '#': 1, b: -1 };

/** The lowest note of the octave in which the drone's tonic lies, where it is heard best under a treble instrument. */
const DRONE_FLOOR: MidiNote = 48;

const pitchClass = (key: string): number => (NATURALS[key[0] ?? ''] ?? 0) + (ALTERATIONS[key[1] ?? ''] ?? 0);

const droneTonic = (key: string, transposition: Semitones): MidiNote =>
  DRONE_FLOOR + ((((pitchClass(key) + transposition) % 12) + 12) % 12);

const USUAL_DRONE: Omit<Drone, 'tonic' | 'a4'> = { voices: ['tonic'], tuning: 'just', timbre: 'reed', gain: 1, detune: 0 };

/** The player reads written pitch; the drone sounds at concert pitch. */
export function prepareFor(instrument: string, a4: Hertz): Prepare {
  const transposition = instrumentNamed(instrument)?.transposition ?? 0;
  return (exercise, line) => ({
    drone: { ...USUAL_DRONE, ...exercise.drone, a4, tonic: droneTonic(line.key, transposition) },
    notes: [],
  });
}
