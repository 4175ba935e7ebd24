/** The drone's timbres by their spectra, as a Fourier sum hears them. */
import { describe, expect, it } from 'vitest';
import type { DroneTimbre } from '../../src/music/sound/sound-commands.ts';
import { addTone, harmonicsFor, wavetable } from '../../src/audio/mix/drone-wavetable.ts';
import { amplitudeAt } from './pitch.ts';

const TIMBRES: readonly DroneTimbre[] = ['reed', 'organ', 'string', 'pure'];
const RATE = 48_000;

function tone(timbre: DroneTimbre, frequency: number, rate = RATE, length = rate): Float32Array {
  const out = new Float32Array(length);
  addTone(out, wavetable(timbre, harmonicsFor(frequency, rate)), frequency, rate, 0, 1);
  return out;
}
const rms = (samples: Float32Array): number => Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length);
const peak = (samples: Float32Array): number => samples.reduce((m, x) => Math.max(m, Math.abs(x)), 0);

/** Levels of the harmonics 1 to `most`, the fundamental's being 1. */
function spectrum(timbre: DroneTimbre, most: number, frequency = 200): readonly number[] {
  const sound = tone(timbre, frequency);
  const levels = Array.from({ length: most }, (_, h) => amplitudeAt(sound, frequency * (h + 1), RATE));
  return levels.map((level) => level / (levels[0] ?? 1));
}

describe('harmonics', () => {
  it('stay below 0.45 of the rate, forty at most and one at least', () => {
    expect(harmonicsFor(440, 48_000)).toBe(40);
    expect(harmonicsFor(1000, 48_000)).toBe(21);
    expect(harmonicsFor(1080, 48_000)).toBe(20);
    expect(harmonicsFor(1000, 44_100)).toBe(19);
    expect(harmonicsFor(30_000, 48_000)).toBe(1);
  });

  // What lies above half the rate (Nyquist) would come back between the harmonics: at 1,800 Hz and a rate of 44,100
  // the 13th harmonic as 20,700 Hz, the 25th as 900.
  it.each(TIMBRES)('are all there is in %s, high up too: nothing is folded down', (timbre) => {
    for (const [frequency, rate] of [
      [1800, 44_100],
      [1397, 48_000],
    ] as const) {
      const sound = tone(timbre, frequency, rate);
      const fitting = harmonicsFor(frequency, rate);
      const within = Array.from({ length: fitting }, (_, h) => amplitudeAt(sound, frequency * (h + 1), rate) ** 2 / 2);
      const rest = Math.abs(rms(sound) ** 2 - within.reduce((a, b) => a + b, 0));
      // What lies elsewhere is left of the straight lines between the points of the table.
      expect(rest / rms(sound) ** 2).toBeLessThan(1e-4);
    }
  });

  it('go up to the fortieth where they fit', () => {
    expect(spectrum('string', 41)[39]).toBeGreaterThan(0.01);
    expect(spectrum('string', 41)[40]).toBeLessThan(0.001);
  });
});

describe('timbres', () => {
  it('string: each harmonic is 1 / h of the first or a little less, as in a saw-tooth with a softer edge', () => {
    spectrum('string', 40).forEach((level, i) => {
      expect(level).toBeLessThanOrEqual(1.0005 / (i + 1));
      expect(level).toBeGreaterThan(0.55 / (i + 1));
    });
    expect(spectrum('string', 2)[1]).toBeCloseTo(2 ** -1.15, 2);
  });

  it('reed: the fundamental leads by 5 dB; the third to the sixth are its colour, and it falls off from there', () => {
    const levels = spectrum('reed', 30);
    for (const level of levels.slice(1)) expect(level).toBeLessThan(0.56);
    for (const h of [3, 4, 5, 6]) expect(levels[h - 1]).toBeGreaterThan(0.25);
    levels.slice(5).forEach((level, i) => expect(level).toBeLessThan(levels[4 + i] ?? 0));
    expect(levels[14]).toBeGreaterThan(0.02);
    expect(levels[29]).toBeLessThan(0.1);
  });

  it('organ: octaves, twelfths and the third stop, and none of the seventh, ninth, eleventh', () => {
    const levels = spectrum('organ', 20);
    const heard = levels.flatMap((level, i) => (level > 0.01 ? [i + 1] : []));
    expect(heard).toEqual([1, 2, 3, 4, 5, 6, 8, 10, 12, 16]);
    // Unisons and octaves lead, the fifth above each octave comes next.
    const [, octave = 0, twelfth = 0, fifteenth = 0, third = 0, nineteenth = 0] = levels;
    expect(octave).toBeLessThan(1);
    for (const softer of [twelfth, fifteenth]) expect(softer).toBeLessThan(octave);
    for (const softest of [third, nineteenth]) expect(softest).toBeLessThan(fifteenth);
    expect(third).toBeLessThan(nineteenth);
  });

  it('pure: next to nothing above the fundamental, and less the higher', () => {
    const levels = spectrum('pure', 8);
    expect(levels.slice(1, 4).every((level, i) => level < (levels[i] ?? 0) && level > 0.02)).toBe(true);
    expect(levels[1]).toBeLessThan(0.15);
    expect(levels.slice(4).every((level) => level < 0.001)).toBe(true);
  });

  it.each(TIMBRES)('%s is as loud as the others, and never beyond full scale', (timbre) => {
    for (const frequency of [60, 233.08, 700]) {
      const sound = tone(timbre, frequency);
      expect(peak(sound)).toBeLessThanOrEqual(1.0001);
      expect(Math.abs(rms(sound) - 0.35)).toBeLessThan(0.0005);
      expect(Math.abs(sound.reduce((sum, x) => sum + x, 0) / sound.length)).toBeLessThan(1e-3);
    }
  });

  // A train of pulses of this loudness would pass full scale.
  it('have their harmonics at phases that keep the peak low: none is softer than the others for its peak', () => {
    for (const timbre of TIMBRES)
      for (const frequency of [60, 116.5, 233.08, 466.2, 932, 1865]) {
        const sound = tone(timbre, frequency);
        expect(Math.abs(rms(sound) - 0.35)).toBeLessThan(0.0005);
        expect(peak(sound)).toBeLessThan(0.75);
      }
  });
});

describe('a tone', () => {
  it('is its frequency to a hair, and its level', () => {
    const sound = tone('pure', 440);
    const half = new Float32Array(RATE);
    addTone(half, wavetable('pure', 40), 440, RATE, 0, 0.5);
    expect(amplitudeAt(half, 440, RATE)).toBeCloseTo(amplitudeAt(sound, 440, RATE) / 2, 4);
    expect(amplitudeAt(sound, 440, RATE)).toBeGreaterThan(0.45);
  });

  it('is added to what is there', () => {
    const out = new Float32Array(100).fill(0.25);
    addTone(out, wavetable('pure', 1), 440, RATE, 0, 1);
    const alone = new Float32Array(100);
    addTone(alone, wavetable('pure', 1), 440, RATE, 0, 1);
    out.forEach((x, i) => expect(x).toBeCloseTo(0.25 + (alone[i] ?? 0), 6));
  });

  it('is a sine where it has one harmonic: between the points of its table too', () => {
    const out = new Float32Array(5000);
    addTone(out, wavetable('pure', 1), 97.3, RATE, 0, 1);
    const level = Math.SQRT2 * 0.35;
    out.forEach((x, i) => expect(Math.abs(x - level * Math.sin((2 * Math.PI * 97.3 * i) / RATE))).toBeLessThan(2e-4));
  });

  it('goes on where it was: from any frame it is the same tone', () => {
    const whole = new Float32Array(9000);
    addTone(whole, wavetable('string', 40), 311.13, RATE, 0, 1);
    const late = new Float32Array(1000);
    addTone(late, wavetable('string', 40), 311.13, RATE, 8000, 1);
    late.forEach((x, i) => expect(Math.abs(x - (whole[8000 + i] ?? 0))).toBeLessThan(1e-4));
  });

  it('begins where its period does, without a jump from one period to the next', () => {
    const table = wavetable('reed', 40);
    expect(table).toHaveLength(2049);
    expect(table[2048]).toBeCloseTo(table[0] ?? NaN, 5);
  });
});
