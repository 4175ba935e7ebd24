import { Key, Note, Scale } from 'tonal';
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
import { SCALES, scaleNamed } from '../../src/music/pitch/scales.ts';

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

const sounding = (notes: readonly string[]) => notes.map((note) => Note.chroma(note));

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

describe('the table of scales', () => {
  // tonal's own dictionary is the reference for what a scale consists of.
  it.each([
    ['major', 'major'],
    ['natural minor', 'aeolian'],
    ['harmonic minor', 'harmonic minor'],
    ['ascending melodic minor', 'melodic minor'],
    ['dorian', 'dorian'],
    ['phrygian', 'phrygian'],
    ['lydian', 'lydian'],
    ['mixolydian', 'mixolydian'],
    ['locrian', 'locrian'],
    ['chromatic', 'chromatic'],
    ['whole-tone', 'whole tone'],
    ['major pentatonic', 'major pentatonic'],
    ['minor pentatonic', 'minor pentatonic'],
    ['blues', 'blues'],
  ])('%s sounds like it', (name, theirs) => {
    const scale = scaleNamed(name);
    if (typeof scale === 'string') throw new Error(scale);
    const ours = scale.up.map((interval) => Note.transpose('C', interval));
    expect(sounding(ours)).toEqual(sounding(Scale.get(`C ${theirs}`).notes));
  });
});
