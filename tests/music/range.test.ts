/** Ranges, and the octave in which notes are put: held against trying every octave. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import {
  type Range,
  allInRange,
  easyRange,
  fewestOctaves,
  fullRange,
  octavesLeastOutside,
  readRange,
  semitonesOutside,
} from '../../src/music/pitch/range.ts';

const OCTAVES = Array.from({ length: 25 }, (_, i) => i - 12);
const ranges = fc
  .tuple(fc.integer({ min: 30, max: 80 }), fc.integer({ min: 0, max: 40 }))
  .map(([low, size]): Range => ({ low, high: low + size }));
const notes = fc.array(fc.integer({ min: 36, max: 90 }), { minLength: 1, maxLength: 6 });

const up = (midis: readonly number[], octaves: number) => midis.map((midi) => midi + 12 * octaves);
const lies = ({ low, high }: Range, midis: readonly number[]) => midis.every((midi) => low <= midi && midi <= high);

/** The octave of those that fit for which this is least; of equal ones the first in order. */
const best = (range: Range, midis: readonly number[], cost: (octave: number) => number): number | null =>
  OCTAVES.filter((octave) => lies(range, up(midis, octave))).reduce<number | null>(
    (found, octave) => (found === null || cost(octave) < cost(found) ? octave : found),
    null,
  );

describe('notes in a range', () => {
  it('are moved by as few octaves as will do', () => {
    fc.assert(
      fc.property(ranges, notes, (range, midis) => {
        expect(fewestOctaves(range, midis) === best(range, midis, Math.abs)).toBe(true);
      }),
      { numRuns: 500 },
    );
    expect(fewestOctaves({ low: 60, high: 72 }, [])).toBe(0);
  });

  it('lie outside by the least where they do not fit', () => {
    fc.assert(
      fc.property(ranges, notes, (range, midis) => {
        const cost = (octave: number) =>
          up(midis, octave).reduce((sum, midi) => sum + Math.max(0, range.low - midi, midi - range.high), 0);
        const chosen = octavesLeastOutside(range, midis);
        for (const octave of OCTAVES.filter((one) => Math.abs(one) <= 9))
          expect(cost(chosen)).toBeLessThanOrEqual(cost(octave));
      }),
    );
    expect(octavesLeastOutside({ low: 60, high: 60 }, [54])).toBe(0);
    expect(octavesLeastOutside({ low: 60, high: 60 }, [66])).toBe(-1);
  });

  it('are counted in semitones outside it, both ends belonging to it', () => {
    const range = { low: 60, high: 72 };
    expect([59, 60, 66, 72, 73, 80].map((midi) => semitonesOutside(range, midi))).toEqual([1, 0, 0, 0, 1, 8]);
    expect(allInRange(range, [60, 72])).toBe(true);
    expect(allInRange(range, [60, 73])).toBe(false);
    expect(allInRange(range, [])).toBe(true);
  });
});

describe('a range', () => {
  it("is the whole of an instrument's or what is easy on it", () => {
    const cornet = instrumentNamed('cornet')!;
    // Written F#3 to C6, common practice, no source: MIDI 54 to 84.
    expect(fullRange(cornet)).toEqual({ low: 54, high: 84 });
    expect(easyRange(cornet)).toEqual({ low: 55, high: 79 });
  });

  it.each([
    ['F#3-C6', 54, 84],
    ['F#3 - C6', 54, 84],
    ['F#3 to C6', 54, 84],
    ['  Bb2   to   F4 ', 46, 65],
    ['C4–C5', 60, 72],
    ['C4-C4', 60, 60],
    ['C4   -   C5', 60, 72],
    ['C4\tto\tC5', 60, 72],
    ['C-1-C4', 0, 60],
  ])('reads %j', (text, low, high) => {
    expect(readRange(text)).toEqual({ low, high });
  });

  it.each(['', 'C4', 'C4-', 'C4-C5-C6', 'C4 to', 'C to D', 'C4toC5', 'H4-C5', 'C5-H4'])('is not %j', (text) => {
    expect(readRange(text)).toBe(
      `'${text}' is no range: write the lowest and the highest written note, like F#3 to C6.`,
    );
  });

  it('does not stand on its head', () => {
    expect(readRange(' C6 -F#3 ')).toBe(
      'The range C6 -F#3 stands on its head: C6 lies above F#3. Write the lowest note first.',
    );
    expect(readRange('C6 to F#3')).toBe(
      'The range C6 to F#3 stands on its head: C6 lies above F#3. Write the lowest note first.',
    );
  });
});
