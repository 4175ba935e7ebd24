/** Names of notes as the program writes them: a letter, sharps or flats, an octave; 'Bb4', 'F#3'. Middle C is C4. */
import type { MidiNote } from '../../common/units.ts';

type Letter = 'C' | 'D' | 'E' | 'F' | 'G' | 'A' | 'B';

export interface PitchName {
  readonly letter: Letter;
  /** Semitones above the letter: 1 sharp, -1 flat, 2 double sharp. */
  readonly alter: number;
  readonly octave: number;
}

/** Semitones of each letter above C. */
const ABOVE_C: Readonly<Record<Letter, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** `readPitch('Bb4')` is `{ letter: 'B', alter: -1, octave: 4 }`; signs are read too; null if it is no note. */
export function readPitch(name: string): PitchName | null {
  const found = /^([A-Ga-g])([#♯x]{0,2}|[b♭]{0,2})(-?\d)$/u.exec(name.trim());
  if (!found) return null;
  const [, letter = '', signs = '', octave = ''] = found;
  let alter = 0;
  for (const sign of signs) alter += sign === 'x' ? 2 : sign === '#' || sign === '♯' ? 1 : -1;
  return { letter: letter.toUpperCase() as Letter, alter, octave: Number(octave) };
}

/** The same for a name of our own. Throws RangeError for what is no note: names from outside are for `readPitch`. */
export function pitchNamed(name: string): PitchName {
  const pitch = readPitch(name);
  if (!pitch) throw new RangeError(`not a note: ${name}`);
  return pitch;
}

export const midiOfPitch = ({ letter, alter, octave }: PitchName): MidiNote =>
  (octave + 1) * 12 + ABOVE_C[letter] + alter;

/** `midiOf('A4')` is 69. Throws RangeError like `pitchNamed`. */
export const midiOf = (name: string): MidiNote => midiOfPitch(pitchNamed(name));

/** The name without its octave. */
export const withoutOctave = (name: string): string => name.replace(/-?\d+$/u, '');

/** 'Bb4' with signs, 'B♭4' (a double sharp is an x, which every font has); with `plain` as it is. */
export const withSigns = (name: string, plain = false): string =>
  plain
    ? name
    : name
        .replaceAll('##', 'x')
        .replaceAll('#', '♯')
        .replace(/(?<=^[A-G]b*)b/gu, '♭');
