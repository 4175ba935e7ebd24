/** Note values, their names and how they are written; the library tonal knows the plain ones. */
import { DurationValue } from 'tonal';
import { describe, expect, it } from 'vitest';
import { TRADITIONAL_MARKS } from '../../src/music/time/metronome-marks.ts';
import { inTimeOf, noteValueName, noteValueOf } from '../../src/music/time/note-values.ts';
import { format, ratio } from '../../src/music/time/ratio.ts';
import { bpmText } from '../../src/music/time/tempo-text.ts';

const HEADS = { whole: 1, half: 2, quarter: 4, eighth: 8, sixteenth: 16, 'thirty-second': 32, 'sixty-fourth': 64 };

describe('a note value', () => {
  it.each(Object.entries(HEADS))('%s lasts what tonal says, with and without dots', (name, head) => {
    for (const [dots, signs] of ['', '.', '..'].entries()) {
      const [n = 0, d = 1] = DurationValue.get(`${name}${signs}`).fraction;
      expect(noteValueOf(ratio(n, d)), `${name}${signs}`).toEqual({ head, dots, tuplet: null });
    }
  });

  it.each([
    [1, 'a whole note'],
    [2, 'a half'],
    [4, 'a quarter'],
    [8, 'an eighth'],
    [16, 'a sixteenth'],
    [32, 'a thirty-second'],
    [64, 'a sixty-fourth'],
  ])('1/%i is called %s', (head, name) => {
    expect(noteValueName(ratio(1, head))).toBe(name);
    expect(noteValueName(ratio(3, 2 * head))).toBe(`a dotted ${name.replace(/^an? /u, '')}`);
  });

  it.each([
    [7, 16],
    [5, 8],
    [1, 12],
    [1, 128],
    [2, 1],
  ])('%i/%i has no name of its own', (n, d) => {
    expect(noteValueName(ratio(n, d))).toBe(`${format(ratio(n, d))} of a whole note`);
  });

  // How many in the time of how many: common practice in every handbook of notation, no source.
  it.each([
    [3, 2],
    [5, 4],
    [6, 4],
    [7, 4],
    [9, 8],
    [11, 8],
    [13, 8],
  ])('%i stand in the time of %i', (notes, plain) => {
    expect(inTimeOf(notes)).toBe(plain);
  });

  it.each([
    ['an eighth of a triplet', 1, 12, 8, 0, 3],
    ['a quarter of a triplet', 1, 6, 4, 0, 3],
    ['a plain eighth', 1, 8, 8, 0, 0],
    ['a sixteenth of a quintuplet', 1, 20, 16, 0, 5],
    ['a sixteenth of a septuplet', 1, 28, 16, 0, 7],
    ['a sixteenth of nine', 1, 18, 16, 0, 9],
    ['a sixteenth of eleven', 1, 22, 16, 0, 11],
    ['a sixteenth of thirteen', 1, 26, 16, 0, 13],
    ['a dotted sixteenth of a quintuplet', 3, 40, 16, 1, 5],
  ])('%s is %i/%i', (_, n, d, head, dots, notes) => {
    const tuplet = notes === 0 ? null : { notes, inTimeOf: inTimeOf(notes) };
    expect(noteValueOf(ratio(n, d))).toEqual({ head, dots, tuplet });
  });

  it.each([
    [5, 8],
    [9, 16],
    [1, 17],
    [1, 256],
  ])('%i/%i of a whole note needs two notes, or none will do', (n, d) => {
    expect(noteValueOf(ratio(n, d))).toBeNull();
  });
});

describe('the traditional metronome marks', () => {
  // The traditional table, read in two public places: 39 marks; those from 80 to 160 are twice those from 40 to 80.
  it('are 39, and double from one octave of tempo to the next', () => {
    expect(TRADITIONAL_MARKS).toHaveLength(39);
    expect([TRADITIONAL_MARKS[0], TRADITIONAL_MARKS.at(-1)]).toEqual([40, 208]);
    const slow = TRADITIONAL_MARKS.filter((bpm) => bpm >= 40 && bpm <= 80 && bpm % 4 === 0);
    for (const bpm of slow) expect(TRADITIONAL_MARKS).toContain(2 * bpm);
    const steps = TRADITIONAL_MARKS.slice(1).map((bpm, i) => bpm / (TRADITIONAL_MARKS[i] ?? 1) - 1);
    for (const step of steps) expect(Math.abs(step - 0.045)).toBeLessThan(0.0115);
  });
});

describe('a tempo in print', () => {
  it('has two decimals at most', () => {
    expect([96, 72.5, 114.9663, 59.999, 60.004].map(bpmText)).toEqual(['96', '72.5', '114.97', '60', '60']);
  });
});
