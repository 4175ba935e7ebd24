import { Midi, Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { midiOf } from '../../src/music/pitch/note-names.ts';
import type { Drone } from '../../src/music/sound/sound-commands.ts';
import { centsBetween } from './cents.ts';
import { toNumber } from '../../src/music/time/ratio.ts';
import { DRONE_INTERVALS, PLAIN_DRONE, droneFrequencies, frequencyOf } from '../../src/music/pitch/tuning.ts';

const just = (voice: keyof typeof DRONE_INTERVALS): number => centsBetween(1, toNumber(DRONE_INTERVALS[voice].just));

// A major third beats between the fifth harmonic of the lower and the fourth of the upper note.
const beats = (low: number): number => Math.abs(5 * frequencyOf(low) - 4 * frequencyOf(low + 4));

describe('tuning (ISO 16, mathematics, handbooks of tuning)', () => {
  it('is equal temperament: C4 261.6256 Hz, B-flat 3 233.0819 Hz, A4 440 Hz (ISO 16)', () => {
    expect(frequencyOf(60)).toBeCloseTo(261.6256, 4);
    expect(frequencyOf(58)).toBeCloseTo(233.0819, 4);
    expect(frequencyOf(69)).toBe(440);
  });

  it('moves with the reference: 442 is +7.851 cents, 415 is -101.271 cents', () => {
    expect(centsBetween(frequencyOf(69), frequencyOf(69, 442))).toBeCloseTo(7.851, 3);
    expect(centsBetween(frequencyOf(69), frequencyOf(69, 415))).toBeCloseTo(-101.271, 3);
  });

  it('has the just intervals in cents of any handbook: 701.955, 386.314, 315.641, 1200', () => {
    expect(just('fifth')).toBeCloseTo(701.955, 3);
    expect(just('major-third')).toBeCloseTo(386.314, 3);
    expect(just('minor-third')).toBeCloseTo(315.641, 3);
    expect(just('octave')).toBeCloseTo(1200, 9);
  });

  it(
    'beats as the table of equal-tempered intervals says: F3-A3 6.9, C4-E4 10.4 per second (J. Neuroscience ' +
      '32, 12251)',
    () => {
      expect(beats(53)).toBeCloseTo(6.9, 1);
      expect(beats(60)).toBeCloseTo(10.4, 1);
    },
  );

  it('detunes the whole drone', () => {
    const [plain = 1] = droneFrequencies(PLAIN_DRONE);
    const [sharp = 1] = droneFrequencies({ ...PLAIN_DRONE, detune: 12 });
    expect(centsBetween(plain, sharp)).toBeCloseTo(12, 9);
  });

  it("is tonal's, for every note and reference", () => {
    for (let midi = 0; midi <= 127; midi += 1) {
      expect(frequencyOf(midi)).toBeCloseTo(Note.freq(Note.fromMidi(midi)) ?? 0, 6);
      expect(frequencyOf(midi, 442)).toBeCloseTo(Midi.midiToFreq(midi, 442), 6);
    }
  });
});

/** Cents of each voice above the tonic. */
const voices = (drone: Drone): readonly number[] => {
  const tonic = frequencyOf(drone.tonic, drone.a4);
  return droneFrequencies(drone).map((frequency) => Math.round(centsBetween(tonic, frequency) * 1000) / 1000);
};

describe('a drone', () => {
  const ALL: Drone = { ...PLAIN_DRONE, voices: ['tonic', 'minor-third', 'major-third', 'fifth', 'octave'] };

  it('sounds its voices in the order asked for, pure above the tonic (just intervals in cents: any handbook)', () => {
    expect(voices(ALL)).toEqual([0, 315.641, 386.314, 701.955, 1200]);
    expect(voices({ ...ALL, voices: ['fifth', 'tonic'] })).toEqual([701.955, 0]);
  });

  it('or equal-tempered, in whole semitones', () => {
    expect(voices({ ...ALL, tuning: 'equal' })).toEqual([0, 300, 400, 700, 1200]);
  });

  it('follows the reference and the detuning', () => {
    // checks.md: B-flat 3 is 233.0819 Hz at 440.
    expect(droneFrequencies(PLAIN_DRONE)[0]).toBeCloseTo(233.0819, 4);
    expect(droneFrequencies({ ...PLAIN_DRONE, a4: 442 })[0]).toBeCloseTo((233.0819 * 442) / 440, 3);
    expect(voices({ ...ALL, detune: -20, voices: ['tonic', 'octave'] })).toEqual([-20, 1180]);
  });

  it('is a soft B flat when nothing else is asked for, what a brass band tunes to (common practice, no source)', () => {
    expect(PLAIN_DRONE).toEqual({
      tonic: midiOf('Bb3'),
      voices: ['tonic'],
      tuning: 'just',
      a4: 440,
      timbre: 'reed',
      gain: 0.5,
      detune: 0,
    });
  });
});
