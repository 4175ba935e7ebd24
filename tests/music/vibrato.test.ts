import { describe, expect, it } from 'vitest';
import { beatForRate, longToneAt, longTonesLast, pulseRate, pulseRungs } from '../../src/music/vibrato.ts';

describe('pulses', () => {
  // L. Garrison, Visualizing Vibrato, convention paper, 2012, table read: the rate, triplets at, sixteenths at.
  it.each([
    [4, 80, 60], [5, 100, 75], [5.5, 110, 82.5], [6, 120, 90], [6.5, 130, 97.5], [7, 140, 105], [8, 160, 120],
  ])('%f Hz are triplets at %f and sixteenths at %f', (rate, triplets, sixteenths) => {
    expect(beatForRate(rate, 3)).toBe(triplets);
    expect(beatForRate(rate, 4)).toBe(sixteenths);
    expect(pulseRate(triplets, 3)).toBe(rate);
  });

  it('climb at a set beat', () => {
    // checks.md, arithmetic: four at quarter = 60 are 4.0 Hz, five 5.0 Hz; six at 63 are 6.3 Hz.
    expect(pulseRungs(60).map(({ rate }) => rate)).toEqual([3, 4, 5, 6]);
    expect(pulseRungs(63, [6, 4, 6]).map(({ words }) => words)).toEqual(['4 on each beat: 4.2 Hz', '6 on each beat: 6.3 Hz']);
  });
});

describe('long tones', () => {
  const tones = { breaths: 3, seconds: 12, rest: 8 };

  it('are counted in breaths and seconds, with no rest after the last', () => {
    expect(longTonesLast(tones)).toBe(52);
    expect(longToneAt(tones, 0)).toEqual({ breath: 1, phase: 'sound', into: 0, left: 12 });
    expect(longToneAt(tones, 15)).toEqual({ breath: 1, phase: 'rest', into: 3, left: 5 });
    expect(longToneAt(tones, 41)).toEqual({ breath: 3, phase: 'sound', into: 1, left: 11 });
    expect(longToneAt(tones, 52).phase).toBe('done');
  });
});
