/** Intervals and simpler names, held against tonal, a general-purpose library of music theory. */
import * as fc from 'fast-check';
import { Interval, Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { above, simplest } from '../../src/music/pitch/intervals.ts';
import { readPitch } from '../../src/music/pitch/note-names.ts';
import { SCALES } from '../../src/music/pitch/scales.ts';

const LETTERS = [...'CDEFGAB'];
const SIGNS = ['', '#', 'b', '##', 'bb'];
const PERFECT = ['d', 'P', 'A'];
const MAJOR = ['d', 'm', 'M', 'A'];
/** Every simple interval that has a name, from the diminished second to the augmented seventh. */
const INTERVALS = [1, 2, 3, 4, 5, 6, 7]
  .flatMap((size) => ([1, 4, 5].includes(size) ? PERFECT : MAJOR).map((quality) => `${size}${quality}`))
  .filter((name) => name !== '1d');
const ALL_NAMES = LETTERS.flatMap((letter) => SIGNS.map((sign) => `${letter}${sign}`));

const notes = fc
  .tuple(fc.constantFrom(...ALL_NAMES), fc.integer({ min: 0, max: 8 }))
  .map(([name, octave]) => `${name}${octave}`);

describe('an interval above a note', () => {
  it('is named as tonal names it, from every note', () => {
    for (const name of ALL_NAMES)
      for (const interval of INTERVALS) {
        const ours = above(`${name}4`, interval);
        expect(ours, `${interval} above ${name}4`).toBe(Note.transpose(`${name}4`, interval));
      }
  });

  it('is as many semitones as tonal counts, in every octave', () => {
    fc.assert(
      fc.property(notes, fc.constantFrom(...INTERVALS), (note, interval) => {
        const distance = (Note.midi(above(note, interval)) ?? 0) - (Note.midi(note) ?? 0);
        expect(distance).toBe(Interval.semitones(interval));
      }),
    );
  });

  it('is known for every step of every scale', () => {
    const steps = SCALES.flatMap(({ up, down }) => [...up, ...down]);
    expect(steps.filter((interval) => !INTERVALS.includes(interval))).toEqual([]);
  });
});

describe('the simplest name of a note', () => {
  it('is the one that tonal gives it', () => {
    fc.assert(
      fc.property(notes, (note) => {
        expect(simplest(note)).toBe(Note.simplify(note));
      }),
      { numRuns: 1000 },
    );
  });

  it('sounds the same, with one sign at most', () => {
    for (const name of ALL_NAMES) {
      const simple = simplest(`${name}4`);
      expect(Note.midi(simple), name).toBe(Note.midi(`${name}4`));
      expect(Math.abs(readPitch(simple)?.alter ?? 9), name).toBeLessThanOrEqual(1);
    }
  });
});
