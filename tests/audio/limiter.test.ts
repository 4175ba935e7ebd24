import { describe, expect, it } from 'vitest';
import { BLOCK, CEILING, MARGIN, limit } from '../../src/audio/mix/limiter.ts';

const RATE = 48_000;

/** Limits a signal of whole blocks, with silence around it. */
function limited(signal: Float32Array): Float32Array {
  const padded = new Float32Array(signal.length + 2 * MARGIN);
  padded.set(signal, MARGIN);
  return limit(padded);
}
const sine = (blocks: number, level: (i: number) => number, hertz = 1000): Float32Array =>
  Float32Array.from({ length: blocks * BLOCK }, (_, i) => level(i) * Math.sin((2 * Math.PI * hertz * i) / RATE));
const peak = (samples: Float32Array): number => samples.reduce((m, x) => Math.max(m, Math.abs(x)), 0);

/** What a level that never crosses zero is multiplied by. */
function gains(blocks: number, level: (i: number) => number): readonly number[] {
  const signal = Float32Array.from({ length: blocks * BLOCK }, (_, i) => level(i));
  return [...limited(signal)].map((x, i) => x / (signal[i] ?? 1));
}
const oneLoudBlock = (i: number): number => (i >= 40 * BLOCK && i < 41 * BLOCK ? 2 * CEILING : 0.5);

describe('the limiter', () => {
  it('leaves alone what never passes the ceiling, to the last bit, and cuts its surroundings off', () => {
    const signal = sine(30, () => CEILING);
    expect(limited(signal)).toEqual(signal);
  });

  it('lets nothing pass the ceiling, wherever in a block a peak lies, above or below zero', () => {
    for (let at = 10 * BLOCK; at < 12 * BLOCK; at++) {
      for (const height of [3, -3]) {
        const signal = new Float32Array(30 * BLOCK);
        signal[at] = height;
        const out = limited(signal);
        expect(peak(out)).toBeLessThanOrEqual(CEILING + 1e-6);
        expect(Math.sign(out[at] ?? 0)).toBe(Math.sign(height));
        expect(peak(out)).toBeGreaterThan(0.9 * CEILING);
      }
    }
  });

  it('turns a loud sound down by no more than it must', () => {
    const out = limited(sine(60, () => 2));
    expect(peak(out.subarray(25 * BLOCK, 35 * BLOCK))).toBeCloseTo(CEILING, 3);
  });

  it('moves slowly: from full to half in no less than ten milliseconds, without a step', () => {
    const moved = gains(80, oneLoudBlock);
    const step = moved.slice(1).reduce((m, g, i) => Math.max(m, Math.abs(g - (moved[i] ?? g))), 0);
    expect(step).toBeLessThan(0.002);
    expect(Math.min(...moved)).toBeCloseTo(0.5, 2);
    const down = moved.findIndex((g) => g < 0.99);
    const low = moved.findIndex((g) => g < 0.51);
    expect(low - down).toBeGreaterThan(0.01 * RATE);
  });

  it('is down before the peak comes, and up again after it, the same way back', () => {
    const moved = gains(81, oneLoudBlock);
    const down = moved.findIndex((g) => g < 0.99);
    const up = moved.findLastIndex((g) => g < 0.99);
    expect(Math.abs(40.5 * BLOCK - down - (up - 40.5 * BLOCK))).toBeLessThanOrEqual(BLOCK);
    expect(40 * BLOCK - down).toBeGreaterThan(10 * BLOCK);
    expect(moved[0]).toBe(1);
    expect(moved.at(-1)).toBe(1);
  });

  it('knows of a peak as far off as its margin', () => {
    const padded = new Float32Array(41 * BLOCK + 2 * MARGIN).fill(0.5);
    for (let block = 0; block < padded.length / BLOCK; block++) {
      const signal = padded.slice();
      signal[block * BLOCK + 32] = 3;
      const whole = limit(signal.slice());
      const middle = limit(signal.slice(20 * BLOCK, 21 * BLOCK + 2 * MARGIN));
      expect(middle).toHaveLength(BLOCK);
      middle.forEach((x, i) => expect(x).toBeCloseTo(whole[20 * BLOCK + i] ?? NaN, 6));
    }
  });

  it('depends on nothing further off than its margin: the same in one piece and in two', () => {
    const signal = sine(120, (i) => (Math.floor(i / 3000) % 3 === 0 ? 2.5 : 0.4));
    const whole = limited(signal);
    const padded = new Float32Array(signal.length + 2 * MARGIN);
    padded.set(signal, MARGIN);
    for (const [from, to] of [
      [0, 60],
      [60, 120],
      [37, 38],
    ] as const) {
      const piece = limit(padded.slice(from * BLOCK, to * BLOCK + 2 * MARGIN));
      expect(piece).toHaveLength((to - from) * BLOCK);
      piece.forEach((x, i) => expect(x).toBeCloseTo(whole[from * BLOCK + i] ?? NaN, 6));
    }
  });
});
