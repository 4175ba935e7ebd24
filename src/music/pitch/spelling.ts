/** What a step of a scale is called in a key. */
import { above, simplest } from './intervals.ts';
import { type Tonality, alteredBy } from './keys.ts';
import { readPitch } from './note-names.ts';
import { degreesIn } from './scales.ts';

/** Which way the line goes on from a note: scales that differ going down are spelled by it. */
export type Direction = 'up' | 'down';

function raised(name: string, semitones: number): string {
  const pitch = readPitch(name);
  if (!pitch || semitones === 0) return name;
  const alter = pitch.alter + semitones;
  return `${pitch.letter}${alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter)}${pitch.octave}`;
}

/** E sharp, B sharp, C flat, F flat and doubles are odd where the signature does not ask for them. */
function odd(name: string, fifths: number): boolean {
  const pitch = readPitch(name);
  if (!pitch || pitch.alter === alteredBy(pitch.letter, fifths)) return false;
  return Math.abs(pitch.alter) > 1 || ['E#', 'B#', 'Cb', 'Fb'].includes(name.replace(/\d/u, ''));
}

const plain = (name: string, fifths: number): string => (odd(name, fifths) ? simplest(name) : name);

/**
 * The note so many steps above the tonic in the tonic's fourth octave, and accidentals on top:
 * `spell(tonality of Bb major, 2, 0, 'up')` is 'D5'. Scales keep their letters, each once; accidentals
 * that would need a double sign, and chromatic steps, are written the simple way.
 */
export function spell(tonality: Tonality, step: number, alter: number, direction: Direction): string {
  const { scale, tonic, fifths } = tonality;
  const size = degreesIn(scale);
  const octaves = Math.floor(step / size);
  const interval = scale[direction][step - octaves * size] ?? '1P';
  const degree = above(`${tonic}4`, interval);
  const name = raised(degree, alter);
  const tidy = scale.simple || (alter !== 0 && Math.abs(readPitch(name)?.alter ?? 0) > 1) ? plain(name, fifths) : name;
  return octavesUp(tidy, octaves);
}

/** `octavesUp('Bb4', -1)` is 'Bb3'. */
export const octavesUp = (name: string, octaves: number): string =>
  name.replace(/-?\d+$/u, (octave) => String(Number(octave) + octaves));
