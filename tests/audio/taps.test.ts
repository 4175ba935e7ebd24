import { describe, expect, it } from 'vitest';
import { offsetFromTaps } from '../../src/audio/tap-offset.ts';

const beats = Array.from({ length: 20 }, (_, k) => 1000 + k * 652);
/** A player who is late by `by` and wavers by up to twelve milliseconds, the same each time. */
const tapped = (by: number): number[] => beats.map((beat, k) => beat + by + 12 * Math.sin(k * 2.4));

describe('offset from taps', () => {
  it('is how late the player taps', () => {
    for (const by of [-60, 0, 45, 180])
      expect(Math.abs((offsetFromTaps(tapped(by), beats)?.offset ?? NaN) - by)).toBeLessThanOrEqual(5);
  });

  it('is not moved by a slip, a doubled or a missing tap, or an unsure start', () => {
    const taps = tapped(40);
    taps[0] = 1900;
    taps[5] = (taps[5] ?? 0) + 240;
    taps.splice(9, 2);
    taps.push((taps.at(-1) ?? 0) + 30);
    expect(Math.abs((offsetFromTaps(taps, beats)?.offset ?? NaN) - 40)).toBeLessThanOrEqual(8);
  });

  it('is none where the taps are few or follow no beat', () => {
    expect(offsetFromTaps(tapped(40).slice(0, 6), beats)).toBeNull();
    expect(
      offsetFromTaps(
        beats.map((b, k) => b + ((k * 197) % 560) - 280),
        beats,
      ),
    ).toBeNull();
    expect(offsetFromTaps([], [])).toBeNull();
  });
});

/** Taps after two to warm up, each so many milliseconds after a beat of its own. */
const lateBy = (late: readonly number[]): ReturnType<typeof offsetFromTaps> => {
  const all = [0, 0, ...late];
  const on = all.map((_, k) => 10_000 + 700 * k);
  return offsetFromTaps(
    all.map((by, k) => (on[k] ?? 0) + by),
    on,
  );
};

describe('the figures of a tap test', () => {
  // Quartiles between two taps by linear interpolation: Hyndman and Fan's type 7 (American Statistician 50, 361, 1996).
  it('are the median and half of the middle half', () => {
    expect(lateBy([10, 20, 30, 40, 50, 60, 70, 80])).toEqual({ offset: 45, spread: 18, used: 8 });
    expect(lateBy([80, 10, 70, 20, 60, 30, 50, 40])).toEqual({ offset: 45, spread: 18, used: 8 });
    expect(lateBy([0, 0, 0, 4, 8, 20, 20, 20, 20])).toEqual({ offset: 8, spread: 10, used: 9 });
    expect(lateBy([-90, -100, -110, -100, -90, -110, -100, -100])).toEqual({ offset: -100, spread: 3, used: 8 });
  });

  it('take eight taps that count, and the first two never do', () => {
    expect(lateBy([5, 5, 5, 5, 5, 5, 5])).toBeNull();
    expect(lateBy([5, 5, 5, 5, 5, 5, 5, 5])?.used).toBe(8);
    const wild = [250, -250, ...Array.from({ length: 8 }, () => 7)];
    const on = wild.map((_, k) => 10_000 + 700 * k);
    expect(
      offsetFromTaps(
        wild.map((by, k) => (on[k] ?? 0) + by),
        on,
      ),
    ).toEqual({ offset: 7, spread: 0, used: 8 });
  });

  it('leave out a tap more than 300 ms from every beat', () => {
    expect(lateBy([5, 5, 5, 5, 5, 5, 5, 5, 300])?.used).toBe(9);
    expect(lateBy([5, 5, 5, 5, 5, 5, 5, 5, -300])?.used).toBe(9);
    expect(lateBy([5, 5, 5, 5, 5, 5, 5, 5, 301])?.used).toBe(8);
    expect(lateBy([5, 5, 5, 5, 5, 5, 5, 5, -301])?.used).toBe(8);
  });

  it('are none where half of the middle half is more than 60 ms', () => {
    expect(lateBy([0, 0, 0, 0, 0, 120, 120, 120, 120])?.spread).toBe(60);
    expect(lateBy([0, 0, 0, 0, 0, 121, 121, 121, 121])).toBeNull();
  });
});
