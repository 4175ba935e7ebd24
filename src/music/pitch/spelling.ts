/** What a step of a scale is called in a key. */
import { above, simplest } from './intervals.ts';
import { type Tonality, alteredBy } from './keys.ts';
import { pitchNamed, withoutOctave } from './note-names.ts';
import { degreesIn } from './scales.ts';

/** Which way the line goes on from a note: scales that differ going down are spelled by it. */
export type Direction = 'up' | 'down';

function raised(name: string, semitones: number): string {
  const { letter, alter, octave } = pitchNamed(name);
  const signs = alter + semitones;
  return `${letter}${signs < 0 ? 'b'.repeat(-signs) : '#'.repeat(signs)}${octave}`;
}

/** As the signature has it, or else with as few signs as will do: no E sharp, no double flat. */
function tidied(name: string, fifths: number): string {
  const { letter, alter } = pitchNamed(name);
  return alter === alteredBy(letter, fifths) ? name : simplest(name);
}

const isDouble = (name: string): boolean => Math.abs(pitchNamed(name).alter) > 1;

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
  const isTidied = scale.simple || (alter !== 0 && isDouble(name));
  return octavesUp(isTidied ? tidied(name, fifths) : name, octaves);
}

/** `octavesUp('Bb4', -1)` is 'Bb3'. */
export const octavesUp = (name: string, octaves: number): string =>
  `${withoutOctave(name)}${pitchNamed(name).octave + octaves}`;
