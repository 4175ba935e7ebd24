/** Where a pattern stands: registers, starting notes, octave marks, and one voice for all keys of an exercise. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type KeySpan, isJump, octavesTogether } from '../../src/music/pattern/one-voice.ts';
import { type KeyRound, type Passage, isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';
import { type Instrument, instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { ALL_MAJOR } from '../../src/music/pitch/keys.ts';
import { midiOf } from '../../src/music/pitch/note-names.ts';
import { type Range, fullRange } from '../../src/music/pitch/range.ts';
import { type Place, REGISTERS, registerOf } from '../../src/music/pitch/registers.ts';
import { COMMON_TIME } from '../../src/music/time/meter.ts';
import { QUARTER } from '../../src/music/time/ratio.ts';

interface Asked {
  readonly on?: string;
  readonly keys?: readonly string[];
  readonly drawn?: boolean;
  readonly place?: Place;
  readonly scale?: string;
}

const instrument = (id: string): Instrument => instrumentNamed(id) as Instrument;

function written(
  pattern: string,
  key: string,
  { on = 'cornet', keys, drawn = false, place, scale }: Asked = {},
): Passage {
  const round: KeyRound | null = keys ? { keys, drawn } : null;
  const result = writeOut({
    pattern,
    scale: scale ?? 'major',
    key,
    meter: COMMON_TIME,
    beat: QUARTER,
    notesPerBeat: 1,
    instrument: instrument(on),
    ...(round ? { round } : {}),
    ...(place ? { place } : {}),
  });
  if (!isPassage(result)) throw new Error(result.troubles[0]?.sentence);
  return result;
}

const names = (passage: Passage): string => passage.notes.map(({ pitch }) => pitch?.name ?? 'z').join(' ');
const said = (pattern: string, key: string, asked?: Asked): string => names(written(pattern, key, asked));
/** The first notes in each of the keys. */
const firsts = (pattern: string, asked: Asked & { keys: readonly string[] }): string =>
  asked.keys.map((key) => written(pattern, key, asked).notes[0]?.pitch?.name).join(' ');

describe('octave marks', () => {
  it('say in which octave the notes lie', () => {
    expect(said('8 | 7', 'C')).toBe('C5 B4');
    expect(said('8, | 7,', 'C')).toBe('C4 B3');
    expect(said("1' | 2'", 'C')).toBe('C5 D5');
    expect(said("1 | 1' | 1", 'C', { on: 'flute' })).toBe('C5 C6 C5');
    expect(said('1, | 1 | 1,', 'C', { on: 'flute' })).toBe('C4 C5 C4');
  });

  it('give way to the range, and that is said', () => {
    const high = written("1'' | 2'' | 1''", 'C');
    expect(names(high)).toBe('C5 D5 C5');
    expect(high.remarks).toEqual([
      'It stands an octave lower than its marks say, to stay in the range of the B-flat cornet.',
    ]);
    expect(written("1'' | 7' | 1''", 'C').remarks).toEqual([]);
  });
});

describe('registers', () => {
  it('lie where players speak of them (common practice, no source)', () => {
    const ends = (on: string) =>
      REGISTERS.map((register) => Object.values(registerOf(instrument(on), register)).join('-')).join(' ');
    // Flute: low to C5, middle to C sharp 6; clarinet: the chalumeau with the throat notes, the clarion, above it.
    expect(ends('flute')).toBe(`59-${midiOf('C5')} ${midiOf('C5')}-${midiOf('C#6')} ${midiOf('C#6')}-98`);
    expect(ends('clarinet')).toBe(`52-${midiOf('Bb4')} ${midiOf('Bb4')}-${midiOf('C#6')} ${midiOf('C#6')}-91`);
  });

  it.each([
    ['low', 'G', 'flute', 'G4 A4 B4 A4 G4'],
    ['middle', 'G', 'flute', 'G5 A5 B5 A5 G5'],
    ['high', 'G', 'flute', 'G6 A6 B6 A6 G6'],
    ['low', 'G', 'clarinet', 'G3 A3 B3 A3 G3'],
    ['middle', 'G', 'clarinet', 'G5 A5 B5 A5 G5'],
    ['low', 'C', 'cornet', 'C4 D4 E4 D4 C4'],
    ['high', 'F', 'cornet', 'F5 G5 A5 G5 F5'],
    ['low', 'Bb', 'trombone', 'Bb2 C3 D3 C3 Bb2'],
  ] as const)('%s in %s on the %s', (register, key, on, expected) => {
    expect(said('1 | 2 | 3 | 2 | 1', key, { on, place: { register } })).toBe(expected);
  });

  it('are missed in a sentence where the range does not hold the notes there', () => {
    const wide = written('1..15 1', 'C', { place: { register: 'low' } });
    expect(wide.remarks).toEqual(['It does not lie in the low register of the B-flat cornet in this key.']);
    expect(written('1 | 2 | 1', 'C', { place: { register: 'low' } }).remarks).toEqual([]);
  });
});

describe('a starting note', () => {
  it.each([
    ['C4', 'C', 'C4 D4'],
    ['C5', 'C', 'C5 D5'],
    ['C#4', 'C', 'C5 D5'],
    ['Bb3', 'C', 'C4 D4'],
    ['B#3', 'C', 'C4 D4'],
  ])('%s in %s', (from, key, expected) => {
    expect(said('1 | 2', key, { place: { from } })).toBe(expected);
  });

  it('is the first note of the pattern, not its lowest or the tonic', () => {
    expect(said('5 | 1', 'C', { place: { from: 'G4' } })).toBe('G4 C4');
    expect(said('3 | 5 | 1', 'C', { place: { from: 'C5' } })).toBe('E5 G5 C5');
  });

  it('holds for the first key, and the others keep to its voice', () => {
    const keys = ['C', 'B', 'Bb', 'A', 'Ab'];
    expect(firsts('1 | 2 | 1', { keys, place: { from: 'C4' } })).toBe('C4 B3 Bb3 A3 Ab3');
    expect(firsts('1 | 2 | 1', { keys, place: { from: 'C5' } })).toBe('C5 B4 Bb4 A4 Ab4');
  });

  it('outside the range is missed in a sentence', () => {
    const low = written('1 | 2', 'C', { on: 'flute', place: { from: 'C2' } });
    expect(low.remarks).toEqual(['From C2 it leaves the range of the flute.']);
    expect(written('1 | 2', 'C', { on: 'flute', place: { from: 'C4' } }).remarks).toEqual([]);
  });
});

describe('the keys of an exercise', () => {
  it('fall by semitones down to F sharp without a jump', () => {
    const keys = ['C', 'B', 'Bb', 'A', 'Ab', 'G', 'F#'];
    expect(firsts("1 | 5 | 1' | 5 | 1", { keys })).toBe('C4 B3 Bb3 A3 Ab3 G3 F#3');
    expect(firsts("1 | 5 | 1' | 5 | 1", { keys, drawn: true })).toBe('C4 B3 Bb3 A3 Ab3 G3 F#3');
  });

  it('stand where they stand whichever of them is asked for, alone or not in the round', () => {
    const keys = ['Ab', 'G', 'F#'];
    expect(said("1 | 5 | 1'", 'G', { keys })).toBe('G3 D4 G4');
    expect(said("1 | 5 | 1'", 'A', { keys })).toBe('A3 E4 A4');
    expect(said("1 | 5 | 1'", 'F', { keys })).toBe('F4 C5 F5');
  });

  it('never lie more than a fifth apart round the circle of fifths, on any instrument', () => {
    for (const on of ['cornet', 'flute', 'clarinet', 'alto-saxophone', 'trombone', 'horn', 'descant-recorder']) {
      const lows = ALL_MAJOR.map(
        (key) => written('1 | 3 | 5', key, { on, keys: ALL_MAJOR }).notes[0]?.pitch?.written ?? 0,
      );
      lows.forEach((low, i) => expect(isJump(low, lows[(i + 1) % 12] ?? 0), `${on} ${ALL_MAJOR[i]}`).toBe(false));
    }
  });
});

/** Trying every octave for a key by itself. */
describe('a key by itself', () => {
  const ranges = fc
    .tuple(fc.integer({ min: 30, max: 80 }), fc.integer({ min: 0, max: 40 }))
    .map(([low, size]): Range => ({ low, high: low + size }));
  const notes = fc.array(fc.integer({ min: 36, max: 90 }), { minLength: 1, maxLength: 6 });
  const spanOf = (midis: readonly number[]): KeySpan => {
    const span = { low: Math.min(...midis), high: Math.max(...midis) };
    return { ...span, first: midis[0] ?? 0, heart: span };
  };
  const middle = ({ low, high }: Range): number => (low + high) / 2;
  const EVERY = Array.from({ length: 25 }, (_, i) => i - 12);

  it('stands as near to the middle as it can, the lower of two', () => {
    fc.assert(
      fc.property(ranges, notes, (range, midis) => {
        const span = spanOf(midis);
        const fits = EVERY.filter((o) => span.low + 12 * o >= range.low && span.high + 12 * o <= range.high);
        const far = (o: number) => Math.abs(middle(span) + 12 * o - middle(range));
        const best = fits.reduce<number | null>(
          (found, o) => (found === null || far(o) < far(found) ? o : found),
          null,
        );
        const wish = { full: range, ease: range, from: null, drawn: false };
        expect(octavesTogether([span], wish)[0] === best).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it('leaves no note outside the range, whatever the others are', () => {
    const cornet = fullRange(instrument('cornet'));
    const many = fc.array(notes, { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(many, fc.boolean(), (all, drawn) => {
        const spans = all.map(spanOf);
        const octaves = octavesTogether(spans, { full: cornet, ease: cornet, from: null, drawn });
        spans.forEach(({ low, high }, i) => {
          const octave = octaves[i] ?? null;
          if (octave === null) return expect(high - low).toBeGreaterThan(30 - 12);
          expect(low + 12 * octave).toBeGreaterThanOrEqual(cornet.low);
          return expect(high + 12 * octave).toBeLessThanOrEqual(cornet.high);
        });
      }),
      { numRuns: 200 },
    );
  });
});
