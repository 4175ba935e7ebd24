import { describe, expect, it } from 'vitest';
import { resample } from '../../src/audio/mix/resampling.ts';
import { amplitudeAt } from './pitch.ts';

const sine = (hertz: number, rate: number, length: number): Float32Array =>
  Float32Array.from({ length }, (_, i) => Math.sin((2 * Math.PI * hertz * i) / rate));
const decibels = (amplitude: number): number => 20 * Math.log10(Math.max(amplitude, 1e-9));

/** The middle of a sound, where its beginning and end have no say. */
const middle = (samples: Float32Array): Float32Array => samples.subarray(samples.length / 4, (samples.length * 3) / 4);

const level = (samples: Float32Array): number =>
  decibels(Math.sqrt(middle(samples).reduce((sum, x) => sum + x * x, 0) / middle(samples).length) * Math.SQRT2);

const RATES = [
  [48_000, 44_100],
  [44_100, 48_000],
  [48_000, 22_050],
  [22_050, 48_000],
  [96_000, 44_100],
] as const;

// The sampling theorem (Shannon 1949): a tone below both half rates has the same samples as that tone sampled anew; one
// above the new half rate has no place there and must not come back as another.
describe('a sound at another rate', () => {
  it.each(RATES)('is the same tone, sample for sample: %i to %i', (from, to) => {
    for (const hertz of [100, 1000, 0.3 * Math.min(from, to)]) {
      const out = resample(sine(hertz, from, from / 10), from, to);
      const truth = sine(hertz, to, out.length);
      const worst = middle(out).reduce((m, x, i) => Math.max(m, Math.abs(x - (middle(truth)[i] ?? 0))), 0);
      expect(worst).toBeLessThan(0.005);
    }
  });

  it.each(RATES)('has nothing that was not in it: %i to %i', (from, to) => {
    const hertz = 0.2 * Math.min(from, to);
    const out = middle(resample(sine(hertz, from, from / 5), from, to));
    for (let other = 500; other < to / 2; other += 500) {
      if (Math.abs(other - hertz) > 1000) expect(decibels(amplitudeAt(out, other, to))).toBeLessThan(-70);
    }
  });

  it.each([
    [48_000, 22_050],
    [96_000, 44_100],
  ])('loses what lies above the new half rate instead of folding it down: %i to %i', (from, to) => {
    for (const hertz of [0.62 * to, 0.75 * to, 0.9 * to])
      expect(level(resample(sine(hertz, from, from / 5), from, to))).toBeLessThan(-50);
  });

  it('keeps what lies well below the new half rate: within a tenth of a decibel at 0.4 of the rate', () => {
    for (const [from, to] of RATES)
      expect(Math.abs(level(resample(sine(0.4 * Math.min(from, to), from, from / 5), from, to)))).toBeLessThan(0.1);
  });

  it('has no image above the old half rate', () => {
    const out = middle(resample(sine(8000, 22_050, 4410), 22_050, 48_000));
    expect(decibels(amplitudeAt(out, 22_050 - 8000, 48_000))).toBeLessThan(-60);
  });

  it('lasts as long: so many samples that the last is not left out', () => {
    expect(resample(new Float32Array(48_000), 48_000, 44_100)).toHaveLength(44_100);
    expect(resample(new Float32Array(101), 48_000, 24_000)).toHaveLength(51);
  });

  it('is the same backwards: its first sample counts as much as its last', () => {
    const noise = Float32Array.from({ length: 101 }, (_, i) => Math.sin(i * i));
    const out = resample(noise, 48_000, 24_000);
    const backwards = resample(noise.toReversed(), 48_000, 24_000).toReversed();
    out.forEach((x, i) => expect(x).toBeCloseTo(backwards[i] ?? NaN, 6));
    const click = Float32Array.from({ length: 101 }, (_, i) => (i === 100 ? 1 : 0));
    expect(Math.abs(resample(click, 48_000, 24_000)[50] ?? 0)).toBeGreaterThan(0.4);
  });

  it('moves the pitch where the two are no rates: up a major third for an accent', () => {
    const out = resample(sine(1000, 48_000, 12_000), 48_000 * 1.26, 48_000);
    expect(amplitudeAt(middle(out), 1260, 48_000)).toBeGreaterThan(0.98);
  });

  it('is left alone at its own rate', () => {
    const samples = sine(1000, 48_000, 100);
    expect(resample(samples, 48_000, 48_000)).toBe(samples);
  });
});
