import * as fc from 'fast-check';
import { Key, Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { INSTRUMENTS, instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { ALL_MAJOR, ALL_MINOR, alteredBy } from '../../src/music/pitch/keys.ts';
import { COMMON_TIME } from '../../src/music/time/meter.ts';
import { droneTonicOf } from '../../src/music/pattern/passage.ts';
import { midiOf, withoutOctave } from '../../src/music/pitch/note-names.ts';
import { easyRange, fullRange, readRange } from '../../src/music/pitch/range.ts';
import { QUARTER, add, format, ratio } from '../../src/music/time/ratio.ts';
import { SCALES } from '../../src/music/pitch/scales.ts';
import {
  type Passage,
  type Refusal,
  type WriteRequest,
  isPassage,
  writeOut,
} from '../../src/music/pattern/written-in-key.ts';

const CORNET = INSTRUMENTS[0]!;
const base: WriteRequest = {
  pattern: '1..8 | 8..1',
  scale: 'major',
  key: 'C',
  meter: COMMON_TIME,
  beat: QUARTER,
  notesPerBeat: 2,
  instrument: CORNET,
};
const write = (asked: Partial<WriteRequest>): Passage => {
  const result = writeOut({ ...base, ...asked });
  if (!isPassage(result)) throw new Error(result.troubles[0]?.sentence);
  return result;
};
const refuse = (asked: Partial<WriteRequest>): Refusal => {
  const result = writeOut({ ...base, ...asked });
  if (isPassage(result)) throw new Error('was written out');
  return result;
};
/** Names without octaves. */
const namesIn = (passage: Passage): readonly string[] =>
  passage.notes.flatMap((note) => (note.pitch ? [withoutOctave(note.pitch.name)] : []));
const names = (asked: Partial<WriteRequest>): string =>
  write(asked)
    .notes.map((note) => note.pitch?.name ?? 'r')
    .join(' ');

const on = (id: string) => write({ instrument: instrumentNamed(id)!, pattern: '1..8' }).notes[0]?.pitch;

describe('a scale for the cornet', () => {
  // Spellings: the circle of fifths, any handbook of theory. Octaves: common practice, no source.
  it.each([
    ['C', 'C4 D4 E4 F4 G4 A4 B4 C5'],
    ['G', 'G3 A3 B3 C4 D4 E4 F#4 G4'],
    ['D', 'D4 E4 F#4 G4 A4 B4 C#5 D5'],
    ['A', 'A3 B3 C#4 D4 E4 F#4 G#4 A4'],
    ['E', 'E4 F#4 G#4 A4 B4 C#5 D#5 E5'],
    ['B', 'B3 C#4 D#4 E4 F#4 G#4 A#4 B4'],
    ['F#', 'F#4 G#4 A#4 B4 C#5 D#5 E#5 F#5'],
    ['Gb', 'Gb4 Ab4 Bb4 Cb5 Db5 Eb5 F5 Gb5'],
    ['Db', 'Db4 Eb4 F4 Gb4 Ab4 Bb4 C5 Db5'],
    ['Ab', 'Ab3 Bb3 C4 Db4 Eb4 F4 G4 Ab4'],
    ['Eb', 'Eb4 F4 G4 Ab4 Bb4 C5 D5 Eb5'],
    ['Bb', 'Bb3 C4 D4 Eb4 F4 G4 A4 Bb4'],
    ['F', 'F4 G4 A4 Bb4 C5 D5 E5 F5'],
    ['A minor', 'A3 B3 C4 D4 E4 F4 G4 A4'],
    ['E minor', 'E4 F#4 G4 A4 B4 C5 D5 E5'],
    ['B minor', 'B3 C#4 D4 E4 F#4 G4 A4 B4'],
    ['F# minor', 'F#4 G#4 A4 B4 C#5 D5 E5 F#5'],
    ['C# minor', 'C#4 D#4 E4 F#4 G#4 A4 B4 C#5'],
    ['G# minor', 'G#3 A#3 B3 C#4 D#4 E4 F#4 G#4'],
    ['Eb minor', 'Eb4 F4 Gb4 Ab4 Bb4 Cb5 Db5 Eb5'],
    ['Bb minor', 'Bb3 C4 Db4 Eb4 F4 Gb4 Ab4 Bb4'],
    ['F minor', 'F4 G4 Ab4 Bb4 C5 Db5 Eb5 F5'],
    ['C minor', 'C4 D4 Eb4 F4 G4 Ab4 Bb4 C5'],
    ['G minor', 'G3 A3 Bb3 C4 D4 Eb4 F4 G4'],
    ['D minor', 'D4 E4 F4 G4 A4 Bb4 C5 D5'],
  ])('in %s', (key, expected) => {
    expect(names({ key, pattern: '1..8' })).toBe(expected);
  });

  it.each([
    ['melodic minor', 'A', 'A3 B3 C4 D4 E4 F#4 G#4 A4 A4 G4 F4 E4 D4 C4 B3 A3'],
    ['harmonic minor', 'G#', 'G#3 A#3 B3 C#4 D#4 E4 F##4 G#4 G#4 F##4 E4 D#4 C#4 B3 A#3 G#3'],
    ['harmonic minor', 'Eb', 'Eb4 F4 Gb4 Ab4 Bb4 Cb5 D5 Eb5 Eb5 D5 Cb5 Bb4 Ab4 Gb4 F4 Eb4'],
    ['dorian', 'D', 'D4 E4 F4 G4 A4 B4 C5 D5 D5 C5 B4 A4 G4 F4 E4 D4'],
    ['lydian', 'F', 'F4 G4 A4 B4 C5 D5 E5 F5 F5 E5 D5 C5 B4 A4 G4 F4'],
  ])('%s on %s', (scale, key, expected) => {
    expect(names({ scale, key })).toBe(expected);
  });

  it('is chromatic with sharps going up and flats going down, never with an odd sign', () => {
    const chromatic = { scale: 'chromatic', notesPerBeat: 3, pattern: '1..12 | 13..2 | 1' };
    expect(names({ ...chromatic, key: 'C' })).toBe(
      'C4 C#4 D4 D#4 E4 F4 F#4 G4 G#4 A4 A#4 B4 C5 B4 Bb4 A4 Ab4 G4 Gb4 F4 E4 Eb4 D4 Db4 C4',
    );
    expect(names({ ...chromatic, key: 'Ab' })).toBe(
      'Ab3 A3 Bb3 B3 C4 Db4 D4 Eb4 E4 F4 F#4 G4 Ab4 G4 Gb4 F4 E4 Eb4 D4 Db4 C4 B3 Bb3 A3 Ab3',
    );
  });

  it('turns a melodic minor at the note where the line turns', () => {
    expect(names({ scale: 'melodic minor', key: 'A', pattern: '5 6 7 6 5 6 7 8' })).toBe('E4 F#4 G4 F4 E4 F#4 G#4 A4');
  });

  it('spells arpeggios, accidentals and broken chords', () => {
    expect(names({ scale: 'diminished seventh', key: 'C', pattern: '1..5 r r r' })).toBe('C4 Eb4 Gb4 A4 C5 r r r');
    expect(names({ scale: 'dominant seventh', key: 'Bb', pattern: '1..5 r r r' })).toBe('Bb3 D4 F4 Ab4 Bb4 r r r');
    expect(names({ key: 'D', pattern: '1 #1 2 b3 3 #4 5 b7' })).toBe('D4 D#4 E4 F4 F#4 G#4 A4 C5');
    expect(names({ key: 'Bb', pattern: '(1 3 5 3)x2+1' })).toBe('Bb3 D4 F4 D4 C4 Eb4 G4 Eb4');
  });
});

describe('spelling', () => {
  it('follows the signature with each letter once, in every major and minor key (tonal is the reference)', () => {
    for (const key of ALL_MAJOR) {
      expect(namesIn(write({ key, pattern: '1..7 r' })), key).toEqual([...Key.majorKey(key).scale]);
    }
    for (const key of ALL_MINOR) {
      const tonic = key.replace(' minor', '');
      for (const [scale, theirs] of [
        ['natural minor', 'natural'],
        ['harmonic minor', 'harmonic'],
        ['ascending melodic minor', 'melodic'],
      ] as const) {
        const spelled = namesIn(write({ key, scale, pattern: '1..7 r' }));
        expect(spelled, `${key} ${scale}`).toEqual([...Key.minorKey(tonic)[theirs].scale]);
        expect(new Set(spelled.map((name) => name[0])).size).toBe(7);
      }
    }
  });

  it('needs no accidental in a major key or a mode', () => {
    for (const scale of ['major', 'dorian', 'phrygian', 'lydian', 'mixolydian', 'locrian', 'natural minor']) {
      for (const key of ALL_MAJOR) {
        const passage = write({ key, scale, pattern: '1..8' });
        for (const name of namesIn(passage)) {
          expect(Note.get(name).alt, `${name} in ${key} ${scale}`).toBe(
            alteredBy(name[0] ?? '', passage.tonality.fifths),
          );
        }
      }
    }
  });
});

describe('pitch', () => {
  it('is the written MIDI number and, by the handbook transposition, the sounding one', () => {
    // Orchestration handbooks, from memory: a written C4 on the B-flat cornet sounds B-flat 3, MIDI 58.
    expect(on('cornet')).toEqual({ name: 'C4', written: 60, concert: 58 });
    expect(on('tenor-horn')?.concert).toBe(60 - 9);
    expect(on('eb-bass')?.concert).toBe(60 - 21);
    expect(on('piccolo')).toMatchObject({ name: 'C5', concert: 72 + 12 });
  });

  it('has the frequency of equal temperament, f = 440 x 2^((m - 69) / 12)', () => {
    const { concert } = write({ pattern: '1..8' }).notes[0]!.pitch!;
    // Equal temperament, A4 = 440 Hz: B-flat 3 is 233.0819 Hz (mathematics).
    expect(440 * 2 ** ((concert - 69) / 12)).toBeCloseTo(233.0819, 3);
    expect(Note.freq('Bb3')).toBeCloseTo(233.0819, 3);
  });

  it('gives the drone the tonic at or below the lowest note', () => {
    expect(droneTonicOf(write({ key: 'D' }))).toBe(60);
    expect(droneTonicOf(write({ key: 'D', pattern: '7, 1 2 1 r r r r' }))).toBe(48);
  });
});

describe('placing', () => {
  it('keeps every note in range, on every instrument, scale and key that fits', () => {
    const scales = fc.constantFrom(...SCALES.map((scale) => scale.name));
    const asked = fc.record({
      scale: scales,
      key: fc.constantFrom(...ALL_MAJOR, ...ALL_MINOR),
      instrument: fc.constantFrom(...INSTRUMENTS),
      pattern: fc.constantFrom(
        '1..8',
        '8..1',
        '1 3 2 4 3 5 1 r',
        '1..8 | 9..2',
        "1, 1 1' 1 r r r r",
        '1..15 r | 1',
        '5 4 3 2 1 7, 6, 5,',
      ),
    });
    fc.assert(
      fc.property(asked, (request) => {
        const result = writeOut({ ...base, ...request });
        const passages = isPassage(result) ? [result] : result.offers;
        if (!isPassage(result)) expect(result.troubles).toHaveLength(1);
        for (const passage of passages) {
          const range = passage.placed === 'easy' ? easyRange(request.instrument) : fullRange(request.instrument);
          for (const { pitch } of passage.notes) {
            if (!pitch) continue;
            expect(midiOf(pitch.name)).toBe(pitch.written);
            expect(pitch.written).toBeGreaterThanOrEqual(range.low);
            expect(pitch.written).toBeLessThanOrEqual(range.high);
          }
          expect(passage.notes.reduce((sum, note) => add(sum, note.length), ratio(0))).toEqual(ratio(passage.bars));
        }
      }),
      { numRuns: 300 },
    );
  });

  it('prefers the easy range, then the full one, and says which', () => {
    expect(write({ pattern: '1..8' }).placed).toBe('easy');
    expect(write({ pattern: '1..8 | 8..15' }).placed).toBe('full');
    expect(write({ key: 'C', range: { low: 72, high: 84 }, pattern: '1..8' }).notes[0]?.pitch?.name).toBe('C5');
  });

  it('says which note is out of range and offers the nearest octave and the bars that fit', () => {
    const { troubles, offers } = refuse({ key: 'E', pattern: '1..8 | 8..15 | 15..8 | 8..1' });
    expect(troubles).toEqual([
      {
        at: 1,
        sentence:
          'E major does not fit the range of the B-flat cornet: E3 in bar 1 lies below it. It can be played in ' +
          'the nearest octave, bar by bar, or as the abbreviated form of 2 bars.',
      },
    ]);
    const [near, short] = offers;
    expect(near?.notes.slice(0, 8).map((note) => note.pitch?.name)).toEqual([
      'E4',
      'F#4',
      'G#4',
      'A4',
      'B4',
      'C#5',
      'D#5',
      'E5',
    ]);
    expect(short?.bars).toBe(2);
    expect(short?.notes.map((note) => format(note.at))).toEqual(
      write({ key: 'E' }).notes.map((note) => format(note.at)),
    );
  });

  it('never ties two different notes when a bar is moved', () => {
    const { offers } = refuse({ pattern: "1:1/2 1''':1/2~ | 1''' | 1:1/2~ 1:1/2" });
    expect(offers).not.toHaveLength(0);
    for (const offer of offers) {
      offer.notes.forEach((note, i) => {
        if (note.tiedTo) expect(offer.notes[i + 1]?.pitch?.name).toBe(note.pitch?.name);
      });
    }
  });
});

describe('places', () => {
  it('are the bar, the beat and how far into it', () => {
    const passage = write({
      meter: { count: 7, unit: 8, groups: [2, 2, 3] },
      beat: ratio(1, 4),
      pattern: '1..7 | 8..2',
    });
    expect(passage.notes.slice(0, 7).map((note) => `${note.bar}/${note.beat}+${format(note.inBeat)}`)).toEqual([
      '0/0+0',
      '0/0+1/2',
      '0/1+0',
      '0/1+1/2',
      '0/2+0',
      '0/2+1/3',
      '0/2+2/3',
    ]);
    expect(passage.notes[7]).toMatchObject({ bar: 1, beat: 0 });
  });
});

describe('what cannot be written out', () => {
  it.each([
    [{ key: 'H' }, /'H' is no key/],
    [{ scale: 'gypsy' }, /'gypsy' is no scale: write one of major/],
    [{ pattern: '1 0' }, /There is no degree 0/],
    [{ pattern: '1 2 3' }, /Bar 1 is too short by 5\/8/],
    [{ range: { low: 80, high: 60 } }, /stands on its head/],
    [
      { range: { low: 60, high: 61 } },
      /lies (above|below) it\. Choose another key or widen the range|It can be played/,
    ],
  ])('%j says why', (asked, sentence) => {
    expect(refuse(asked).troubles[0]?.sentence).toMatch(sentence);
  });

  it('includes ranges that make no sense', () => {
    expect(readRange('F#3 to C6')).toEqual({ low: 54, high: 84 });
    expect(readRange('F#3-C6')).toEqual({ low: 54, high: 84 });
    expect(readRange('C6-F#3')).toBe(
      'The range C6-F#3 stands on its head: C6 lies above F#3. Write the lowest note first.',
    );
    expect(readRange('low to high')).toMatch(/is no range/);
  });
});
