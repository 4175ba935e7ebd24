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
