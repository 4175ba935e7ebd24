/** When an estimate is sure enough to be acted on. */
import { describe, expect, it } from 'vitest';
import { isSure } from '../../src/ladder/speed/speed-knowledge.ts';

const estimate = (low: number, high: number) => ({ bpm: 90, low, high, marks: 20, siblings: false, played: null });

describe('an estimate', () => {
  it('is sure when its interval is narrower than a third of its middle, not before', () => {
    // A third of 90 is 30; arithmetic.
    expect(isSure(estimate(76, 105))).toBe(true);
    expect(isSure(estimate(75, 105))).toBe(false);
    expect(isSure(estimate(60, 130))).toBe(false);
  });
});
