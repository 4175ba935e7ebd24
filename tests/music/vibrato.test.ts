import { describe, expect, it } from 'vitest';
import { PULSES, readArticulation } from '../../src/music/tongue/articulation.ts';
import { notesPerSecond } from '../../src/music/time/meter.ts';
import { countedOnBeat, pulsesIn } from '../../src/music/tongue/vibrato.ts';

describe('pulses', () => {
  // L. Garrison, Visualizing Vibrato, convention paper, 2012, table read: the rate, triplets at, sixteenths at.
  it.each([
    [4, 80, 60],
    [5, 100, 75],
    [5.5, 110, 82.5],
    [6, 120, 90],
    [6.5, 130, 97.5],
    [7, 140, 105],
    [8, 160, 120],
  ])('%f Hz are triplets at %f and sixteenths at %f', (rate, triplets, sixteenths) => {
    expect(notesPerSecond(triplets, 3)).toBe(rate);
    expect(notesPerSecond(sixteenths, 4)).toBe(rate);
  });

  it('are named beside the ways of tonguing', () => {
    // Arithmetic: four at quarter = 60 are 4.0 Hz, five 5.0 Hz; six at 63 are 6.3 Hz.
    expect(PULSES.map((name) => notesPerSecond(60, pulsesIn(name) ?? 0))).toEqual([3, 4, 5, 6]);
    expect(notesPerSecond(63, pulsesIn('Pulses 6') ?? 0)).toBeCloseTo(6.3);
    expect(readArticulation('pulses 4')).toMatchObject({ name: 'pulses 4', pulses: 4, tonguing: { kind: 'slurred' } });
    expect([pulsesIn('single'), pulsesIn('pulses 1'), pulsesIn('pulses 13')]).toEqual([null, null, null]);
    expect([countedOnBeat('pulses 5', 0.25), countedOnBeat('single', 4)]).toEqual([5, 4]);
  });
});
