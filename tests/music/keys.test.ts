import { Key, Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import {
  ALL_MAJOR,
  ALL_MINOR,
  type Key as KeyOf,
  alteredBy,
  fifthsOf,
  readKey,
  tonalityOf,
  tonicAt,
} from '../../src/music/pitch/keys.ts';
import { SCALES } from '../../src/music/pitch/scales.ts';

const key = (name: string): KeyOf => {
  const read = readKey(name);
  if (typeof read === 'string') throw new Error(read);
  return read;
};
const tonality = (name: string, scale: string) => {
  const found = tonalityOf(key(name), scale);
  if (typeof found === 'string') throw new Error(found);
  return found;
};

describe('signatures', () => {
  // The circle of fifths as any handbook of theory prints it.
  it.each([
    ['C', 0],
    ['G', 1],
    ['D', 2],
    ['A', 3],
    ['E', 4],
    ['B', 5],
    ['F#', 6],
    ['C#', 7],
    ['F', -1],
    ['Bb', -2],
    ['Eb', -3],
    ['Ab', -4],
    ['Db', -5],
    ['Gb', -6],
    ['Cb', -7],
    ['A minor', 0],
    ['E minor', 1],
    ['C# minor', 4],
    ['G# minor', 5],
    ['D minor', -1],
    ['C minor', -3],
    ['Eb minor', -6],
  ])('%s has %i sharps', (name, fifths) => {
    expect(tonality(name, 'major').fifths).toBe(fifths);
  });

  it('agree with tonal for every major and minor key', () => {
    for (const name of ALL_MAJOR) expect(tonality(name, 'major').fifths, name).toBe(Key.majorKey(name).alteration);
    for (const name of ALL_MINOR) {
      const tonic = name.replace(' minor', '');
      expect(tonality(name, 'major').fifths, name).toBe(Key.minorKey(tonic).alteration);
    }
  });

  it('say what they do to each letter', () => {
    for (let fifths = -7; fifths <= 7; fifths += 1) {
      for (const note of Key.majorKey(tonicAt(fifths)).scale) {
        expect(alteredBy(note[0] ?? '', fifths), `${note} in ${fifths}`).toBe(Note.get(note).alt);
      }
    }
  });

  it('turn back into tonics', () => {
    for (let fifths = -12; fifths <= 14; fifths += 1) expect(fifthsOf(tonicAt(fifths))).toBe(fifths);
  });
});

describe('names of keys', () => {
  it.each([
    ['B♭', 'Bb'],
    ['b flat', 'Bb'],
    ['f sharp', 'F#'],
    ['Bb major', 'Bb'],
    ['a minor', 'A minor'],
    ['e flat minor', 'Eb minor'],
    ['D Dorian', 'D dorian'],
    ['A  harmonic minor', 'A harmonic minor'],
    ['F# ', 'F#'],
  ])('%s is %s', (written, name) => {
    expect(key(written).name).toBe(name);
  });

  it.each(['H', '', 'C## major', 'B flatt', 'A angry', '\u001b[31mC'])('%j is refused with a sentence', (written) => {
    expect(readKey(written)).toMatch(/is no key: write a letter from A to G/);
  });
});

describe('a scale in a key', () => {
  it('is written with the name that has fewer signs where only a tonic was given', () => {
    expect(tonality('Db', 'harmonic minor')).toMatchObject({ tonic: 'C#', fifths: 4 });
    expect(tonality('Ab', 'melodic minor')).toMatchObject({ tonic: 'G#', fifths: 5 });
    expect(tonality('Db', 'harmonic minor').respelled).toBe(
      'Db harmonic minor would have 8 flats, so it is written as C# harmonic minor.',
    );
  });

  it('keeps the name that the player wrote as long as it can be written', () => {
    for (const name of ['Eb minor', 'D# minor', 'Ab minor'])
      expect(tonality(name, 'harmonic minor').respelled).toBeNull();
    expect(tonality('C#', 'major').tonic).toBe('C#');
  });

  it('follows a minor key where the exercise says no more than major', () => {
    expect(tonality('A minor', 'major').scale.name).toBe('natural minor');
    expect(tonality('A harmonic minor', 'major').scale.name).toBe('harmonic minor');
    expect(tonality('A minor', 'major arpeggio').scale.name).toBe('minor arpeggio');
    expect(tonality('A minor', 'melodic minor').scale.name).toBe('melodic minor');
    expect(tonality('A minor', 'chromatic')).toMatchObject({ fifths: 0 });
  });

  it('never has more than seven signs', () => {
    for (const scale of SCALES) {
      for (const name of [...ALL_MAJOR, ...ALL_MINOR, 'C#', 'Cb', 'Gb', 'G#', 'D#', 'A#', 'Fb']) {
        expect(Math.abs(tonality(name, scale.name).fifths), `${name} ${scale.name}`).toBeLessThanOrEqual(7);
      }
    }
  });

  it('is refused with all the names there are', () => {
    expect(tonalityOf(key('C'), 'hungarian')).toMatch(/'hungarian' is no scale: write one of major, natural minor/);
  });
});

const steps = (names: readonly string[]) =>
  names.map((name, i) => (fifthsOf(names[i + 1] ?? names[0] ?? '') - fifthsOf(name) + 24) % 12);

describe('tonics and fifths', () => {
  it.each(['', 'H', 'C#b', 'c', 'Cx', 'C4', 'xC', 'CC', 'C b'])(
    '%j is no tonic, which is a mistake of ours',
    (tonic) => {
      expect(() => fifthsOf(tonic)).toThrow(new RangeError(`not a tonic: ${tonic}`));
    },
  );

  it('lie where the circle of fifths has them', () => {
    expect(['F', 'C', 'G', 'B', 'F#', 'Bb', 'Fb', 'F##', 'Bbb'].map(fifthsOf)).toEqual([
      -1, 0, 1, 5, 6, -2, -8, 13, -9,
    ]);
    expect([-8, -2, -1, 0, 5, 6, 13].map(tonicAt)).toEqual(['Fb', 'Bb', 'F', 'C', 'B', 'F#', 'F##']);
  });

  it('go round the circle for the keys that are practised', () => {
    expect(steps(ALL_MAJOR)).toEqual(Array.from({ length: 12 }, () => 1));
    expect(steps(ALL_MINOR.map((name) => name.replace(' minor', '')))).toEqual(Array.from({ length: 12 }, () => 1));
    expect(ALL_MINOR.every((name) => name.endsWith(' minor'))).toBe(true);
    expect(ALL_MAJOR[0]).toBe('C');
    expect(ALL_MINOR[0]).toBe('A minor');
  });
});

describe('a key', () => {
  it('is what its words say, and no more', () => {
    expect(key('E-flat')).toEqual({ name: 'Eb', tonic: 'Eb', scale: null });
    expect(key('f-sharp minor')).toEqual({ name: 'F# minor', tonic: 'F#', scale: 'minor' });
    expect(key('a   harmonic   minor').name).toBe('A harmonic minor');
    expect(key(' b   flat ').name).toBe('Bb');
    expect(key('C MAJOR')).toEqual({ name: 'C', tonic: 'C', scale: null });
    expect(key('g♯ Aeolian')).toEqual({ name: 'G# natural minor', tonic: 'G#', scale: 'natural minor' });
    expect(readKey('Q')).toBe(
      "'Q' is no key: write a letter from A to G, with # or b where it has one, and minor or another scale after it, " +
        'like C, Bb, F# or A minor.',
    );
    for (const wrong of ['xC', 'Cmajor', 'C-', 'Cbb', 'C sharp flat']) expect(readKey(wrong)).toMatch(/is no key/u);
  });
});

describe('a signature', () => {
  it.each([
    ['Bb', 'dominant seventh', -3],
    ['C', 'lydian', 1],
    ['C', 'chromatic', 0],
    ['C minor', 'chromatic', -3],
    ['C harmonic minor', 'whole-tone', -3],
    ['D dorian', 'chromatic', 2],
    ['A minor', 'major pentatonic', 0],
    ['A minor', 'major seventh', 0],
    ['A dorian', 'major arpeggio', 3],
    ['D dorian', 'major', 0],
  ])('of %s with the scale %s has %i', (name, scale, fifths) => {
    expect(tonality(name, scale).fifths).toBe(fifths);
  });

  // More than seven signs are never written; with a tonic alone, no more than six in a scale with signs of its own.
  it.each([
    ['C#', 'lydian', 'Db', -4],
    ['Cb', 'dorian', 'B', 3],
    ['G#', 'major', 'Ab', -4],
    ['D#', 'dorian', 'Eb', -5],
    ['F#', 'lydian', 'Gb', -5],
    ['G#', 'natural minor', 'G#', 5],
    ['A#', 'natural minor', 'Bb', -5],
    ['Gb', 'dorian', 'F#', 4],
    ['Db', 'dorian', 'C#', 5],
    ['Eb', 'natural minor', 'Eb', -6],
    ['D#', 'natural minor', 'D#', 6],
  ])('on %s %s is written on %s with %i', (name, scale, tonic, fifths) => {
    expect(tonality(name, scale)).toMatchObject({ tonic, fifths, name: `${tonic} ${scale}` });
  });

  it('says why where another name is written, in sharps or flats', () => {
    expect(tonality('G#', 'major').respelled).toBe('G# major would have 8 sharps, so it is written as Ab major.');
    expect(tonality('Cb', 'dorian').respelled).toBe('Cb dorian would have 9 flats, so it is written as B dorian.');
    expect(tonality('C', 'major').respelled).toBeNull();
  });
});
