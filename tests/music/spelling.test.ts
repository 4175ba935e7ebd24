/** What the steps of a scale are called in a key. The spellings: any handbook of theory. */
import { Key } from 'tonal';
import { describe, expect, it } from 'vitest';
import { ALL_MINOR, readKey, tonalityOf } from '../../src/music/pitch/keys.ts';
import { withoutOctave } from '../../src/music/pitch/note-names.ts';
import { type Direction, octavesUp, spell } from '../../src/music/pitch/spelling.ts';
import { passageIn } from './drills.ts';

/** A step (0 is the tonic) with semitones by accidentals on top. */
function named(key: string, scale: string, step: number, alter = 0, direction: Direction = 'up'): string {
  const read = readKey(key);
  const tonality = typeof read === 'string' ? read : tonalityOf(read, scale);
  if (typeof tonality === 'string') throw new Error(tonality);
  return spell(tonality, step, alter, direction);
}

/** So many steps from the tonic on. */
const line = (key: string, scale: string, steps: number, direction: Direction = 'up'): string =>
  Array.from({ length: steps }, (_, step) => named(key, scale, step, 0, direction)).join(' ');

describe('a step of a scale', () => {
  it('goes on above the octave and below the tonic', () => {
    expect(named('Bb', 'major', 2)).toBe('D5');
    expect([-1, -7, -8, 7, 8, 14].map((step) => named('Bb', 'major', step))).toEqual([
      'A4',
      'Bb3',
      'A3',
      'Bb5',
      'C6',
      'Bb6',
    ]);
    expect([-1, 3, 4].map((step) => named('C', 'major arpeggio', step))).toEqual(['G3', 'C5', 'E5']);
  });

  it('keeps the letters of its scale, each once, with double signs where they belong', () => {
    expect(line('G#', 'harmonic minor', 8)).toBe('G#4 A#4 B4 C#5 D#5 E5 F##5 G#5');
    expect(line('C#', 'major', 8)).toBe('C#4 D#4 E#4 F#4 G#4 A#4 B#4 C#5');
    expect(line('Cb', 'major', 8)).toBe('Cb4 Db4 Eb4 Fb4 Gb4 Ab4 Bb4 Cb5');
  });

  it('differs going down where the scale does', () => {
    expect(line('A', 'melodic minor', 8)).toBe('A4 B4 C5 D5 E5 F#5 G#5 A5');
    expect(line('A', 'melodic minor', 8, 'down')).toBe('A4 B4 C5 D5 E5 F5 G5 A5');
  });

  it('in scales without letters of their own has the simplest name, but the signature first', () => {
    expect(line('C', 'chromatic', 12)).toBe('C4 C#4 D4 D#4 E4 F4 F#4 G4 G#4 A4 A#4 B4');
    expect(line('C', 'chromatic', 12, 'down')).toBe('C4 Db4 D4 Eb4 E4 F4 Gb4 G4 Ab4 A4 Bb4 B4');
    // F sharp major has an E sharp in its signature; C sharp has a B sharp, and D flat neither.
    expect(line('F#', 'chromatic', 12)).toBe('F#4 G4 G#4 A4 A#4 B4 C5 C#5 D5 D#5 E5 E#5');
    expect(line('Db', 'chromatic', 12)).toBe('Db4 D4 Eb4 E4 F4 Gb4 G4 Ab4 A4 Bb4 B4 C5');
    expect(line('Gb', 'chromatic', 12, 'down')).toBe('Gb4 G4 Ab4 A4 Bb4 Cb5 C5 Db5 D5 Eb5 E5 F5');
    expect(line('E', 'whole-tone', 6)).toBe('E4 F#4 G#4 A#4 C5 D5');
    expect(line('Eb', 'diminished seventh', 4)).toBe('Eb4 Gb4 A4 C5');
    expect(line('Eb', 'augmented arpeggio', 3)).toBe('Eb4 G4 B4');
    expect(line('E', 'augmented arpeggio', 3)).toBe('E4 G#4 C5');
  });

  it.each([
    ['C', 6, -1, 'Bb4'],
    ['D', 6, -1, 'C5'],
    ['F', 3, 1, 'B4'],
    ['C', 2, 1, 'E#4'],
    ['C', 0, -1, 'Cb4'],
    ['C', 0, 2, 'D4'],
    ['C', 6, -2, 'A4'],
    ['F#', 6, 1, 'F#5'],
    ['Gb', 3, -1, 'Bb4'],
    ['B', 6, 1, 'B5'],
    ['Eb', 0, -1, 'D4'],
    ['Ab', 3, -1, 'C5'],
    ['C', 1, 0, 'D4'],
  ])('in %s: step %i with %i semitones on top is %s', (key, step, alter, name) => {
    expect(named(key, 'major', step, alter)).toBe(name);
  });
});

describe('a name some octaves up', () => {
  it('is the same letter and signs', () => {
    expect(octavesUp('Bb4', -1)).toBe('Bb3');
    expect(octavesUp('F##3', 2)).toBe('F##5');
    expect(octavesUp('C0', -1)).toBe('C-1');
    expect(octavesUp('C-1', 1)).toBe('C0');
  });
});

describe('a chromatic scale in a minor key', () => {
  // The harmonic chromatic scale of theory handbooks, from memory: each note of the key's three minor scales keeps its
  // own name. tonal is the reference for those names. Double signs, and white keys named by a sign, are written the
  // simple way in every chromatic scale.
  const isOdd = (name: string): boolean => /##|bb|^(E#|B#|Fb)$/u.test(name);
  it.each(ALL_MINOR)('%s has every note of its minor scales by its own name, up and down', (key) => {
    const passage = passageIn({ pattern: '1..12 | 13..2 | 1', notes: 3, key, scale: 'chromatic', instrument: 'flute' });
    const names = passage.notes.flatMap(({ pitch }) => (pitch ? [withoutOctave(pitch.name)] : []));
    const theirs = Key.minorKey(key.replace(' minor', ''));
    const scales = [theirs.natural, theirs.harmonic, theirs.melodic].flatMap(({ scale }) => [...scale]);
    for (const way of [names.slice(0, 12), names.slice(12, 24)]) {
      expect(way).toEqual(expect.arrayContaining(scales.filter((name) => !isOdd(name))));
      expect(new Set(way).size).toBe(12);
      expect(way.filter(isOdd)).toEqual([]);
    }
    expect(passage.tonality.fifths).toBe(theirs.alteration);
  });

  it('in E flat minor is written with G flat, C flat and D flat', () => {
    const passage = passageIn({ pattern: '1..12 | 13:1', notes: 3, key: 'Eb minor', scale: 'chromatic' });
    expect(passage.notes.map(({ pitch }) => pitch && withoutOctave(pitch.name)).join(' ')).toBe(
      'Eb E F Gb G Ab A Bb Cb C Db D Eb',
    );
  });
});
