/** What putting a line on the stand needs besides its history, for the player's instrument. */
import { instrumentNamed } from '../music/instruments.ts';
import type { Prepare } from '../practice/stand.ts';

const NATURALS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
const ALTERATIONS: Readonly<Record<string, number>> = { '#': 1, b: -1 };

/** The lowest MIDI note of the octave in which the drone's tonic lies, where it is heard best under a treble instrument. */
const DRONE_FLOOR = 48;

const pitchClass = (key: string): number => (NATURALS[key[0] ?? ''] ?? 0) + (ALTERATIONS[key[1] ?? ''] ?? 0);

const droneTonic = (key: string, transposition: number): number =>
  DRONE_FLOOR + ((((pitchClass(key) + transposition) % 12) + 12) % 12);

export function prepareFor(instrument: string): Prepare {
  const transposition = instrumentNamed(instrument)?.transposition ?? 0;
  return (_exercise, line) => ({ tonic: droneTonic(line.key, transposition), notes: [] });
}
