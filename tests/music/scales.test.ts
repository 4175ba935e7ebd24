/** The table of scales, held against tonal's dictionaries of scales, chords and modes. */
import { Chord, Mode, Note, Scale as Theirs } from 'tonal';
import { describe, expect, it } from 'vitest';
import { SCALES, type Scale, degreesIn, scaleNamed } from '../../src/music/pitch/scales.ts';

const scale = (name: string): Scale => {
  const found = scaleNamed(name);
  if (typeof found === 'string') throw new Error(found);
  return found;
};

const chromaOf = (intervals: readonly string[]) =>
  intervals.map((interval) => Note.chroma(Note.transpose('C', interval)));

describe('a scale', () => {
  it.each([
    ['major', 'major'],
    ['natural minor', 'aeolian'],
    ['harmonic minor', 'harmonic minor'],
    ['melodic minor', 'melodic minor'],
    ['ascending melodic minor', 'melodic minor'],
    ['dorian', 'dorian'],
    ['phrygian', 'phrygian'],
    ['lydian', 'lydian'],
    ['mixolydian', 'mixolydian'],
    ['locrian', 'locrian'],
    ['major pentatonic', 'major pentatonic'],
    ['minor pentatonic', 'minor pentatonic'],
    ['blues', 'blues'],
  ])('%s has the intervals of %s', (name, theirs) => {
    expect(scale(name).up).toEqual(Theirs.get(`C ${theirs}`).intervals);
    expect(degreesIn(scale(name))).toBe(Theirs.get(`C ${theirs}`).intervals.length);
    expect(scale(name).kind).toBe('scale');
  });

  it('with a name for every semitone sounds like tonal, whatever it calls them', () => {
    expect(chromaOf(scale('chromatic').up)).toEqual(chromaOf(Theirs.get('C chromatic').intervals));
    expect(chromaOf(scale('whole-tone').up)).toEqual(chromaOf(Theirs.get('C whole tone').intervals));
    expect([degreesIn(scale('chromatic')), degreesIn(scale('whole-tone'))]).toEqual([12, 6]);
  });

  it('comes down as it went up, but for the melodic minor, which is natural, and the chromatic with its flats', () => {
    for (const one of SCALES) {
      if (one.name === 'melodic minor') expect(one.down).toEqual(scale('natural minor').up);
      else expect(chromaOf(one.down), one.name).toEqual(chromaOf(one.up));
    }
    // Sharps up, flats down: common practice, no source. The tritone is one or the other.
    expect(scale('chromatic').up.filter((name) => name.endsWith('A'))).toHaveLength(5);
    expect(scale('chromatic').down.filter((name) => /[md]$/u.test(name))).toHaveLength(5);
  });
});

describe('an arpeggio', () => {
  it.each([
    ['major arpeggio', 'M'],
    ['minor arpeggio', 'm'],
    ['augmented arpeggio', 'aug'],
    ['major seventh', 'maj7'],
    ['minor seventh', 'm7'],
    ['dominant seventh', '7'],
    ['diminished seventh', 'dim7'],
  ])('%s has the notes of the chord %s', (name, chord) => {
    expect(scale(name).up).toEqual(Chord.get(`C${chord}`).intervals);
    expect(scale(name).down).toEqual(scale(name).up);
    expect(scale(name).kind).toBe('arpeggio');
  });
});

const named = (names: readonly string[]) => names.map((name) => scale(name).signature);

describe('the signature of a scale', () => {
  it('is that of the mode: as many fifths from the major one as tonal counts', () => {
    for (const mode of Mode.all()) expect(scale(mode.name).signature, mode.name).toBe(0 - mode.alt);
  });

  it("is the parallel minor's for everything minor, and the key's own where there is neither", () => {
    expect(named(['harmonic minor', 'melodic minor', 'ascending melodic minor', 'minor pentatonic', 'blues'])).toEqual([
      -3, -3, -3, -3, -3,
    ]);
    expect(named(['minor arpeggio', 'minor seventh', 'diminished seventh'])).toEqual([-3, -3, -3]);
    expect(named(['major arpeggio', 'augmented arpeggio', 'major seventh', 'major pentatonic'])).toEqual([0, 0, 0, 0]);
    // The dominant seventh on a tonic belongs to the key a fifth below: its seventh is that key's fourth.
    expect(named(['dominant seventh', 'chromatic', 'whole-tone'])).toEqual([-1, null, null]);
  });
});

describe('the name of a scale', () => {
  it.each([
    ['ionian', 'major'],
    ['minor', 'natural minor'],
    ['Aeolian', 'natural minor'],
    ['whole tone', 'whole-tone'],
    ['pentatonic', 'major pentatonic'],
    ['arpeggio', 'major arpeggio'],
    ['major triad', 'major arpeggio'],
    ['minor triad', 'minor arpeggio'],
    ['augmented triad', 'augmented arpeggio'],
    ['major seventh arpeggio', 'major seventh'],
    ['minor seventh arpeggio', 'minor seventh'],
    ['dominant seventh arpeggio', 'dominant seventh'],
    ['diminished seventh arpeggio', 'diminished seventh'],
    ['  Harmonic   Minor ', 'harmonic minor'],
  ])('%s means %s', (word, name) => {
    expect(scale(word).name).toBe(name);
  });

  it('is found by itself, and by nothing else', () => {
    for (const one of SCALES) expect(scale(one.name)).toBe(one);
    const words = SCALES.flatMap(({ name, aliases }) => [name, ...aliases]);
    expect(new Set(words).size).toBe(words.length);
    expect(words.every((word) => /^[a-z]+([ -][a-z]+)*$/u.test(word))).toBe(true);
    expect(scaleNamed('double harmonic')).toBe(
      `'double harmonic' is no scale: write one of ${SCALES.map(({ name }) => name).join(', ')}, ` +
        'or degrees like 1 2 b3 5.',
    );
  });

  it('has its counterpart in minor where it has one', () => {
    expect(SCALES.filter((one) => one.parallelMinor).map((one) => [one.name, one.parallelMinor])).toEqual([
      ['major', 'natural minor'],
      ['chromatic', 'minor chromatic'],
      ['major pentatonic', 'minor pentatonic'],
      ['major arpeggio', 'minor arpeggio'],
      ['major seventh', 'minor seventh'],
    ]);
  });

  it('tells which ones are written with the simplest signs', () => {
    expect(SCALES.filter((one) => one.simple).map(({ name }) => name)).toEqual([
      'chromatic',
      'minor chromatic',
      'whole-tone',
      'blues',
      'augmented arpeggio',
      'diminished seventh',
    ]);
  });
});
