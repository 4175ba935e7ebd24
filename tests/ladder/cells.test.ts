import { describe, expect, it } from 'vitest';
import { FLAT, multiplied, overSpeeds, spread } from '../../src/ladder/speed/grid-weights.ts';
import { CELLS, KINDS, SPACING, SPEEDS } from '../../src/ladder/speed/estimate-grid.ts';

/** All weight on one tempo. */
const peak = multiplied(FLAT, [
  Float64Array.from({ length: CELLS }, (_, cell) => (Math.floor(cell / KINDS.length) === 50 ? 1 : 1e-30)),
]);

function moments(weights: Float64Array): { total: number; mean: number; variance: number } {
  const total = weights.reduce((a, b) => a + b, 0);
  const mean = weights.reduce((sum, w, i) => sum + w * SPEEDS[i]!, 0) / total;
  return { total, mean, variance: weights.reduce((sum, w, i) => sum + w * (SPEEDS[i]! - mean) ** 2, 0) / total };
}

describe('what days do to the weights', () => {
  // The variance of a sum of independent steps is the sum of their variances (mathematics).
  it.each([0.05, 0.5, 1.2, 1.3, 3, 4.56, 7.5])(
    'spreads them by just the variance asked for: %d squares of the grid',
    (squares) => {
      const after = moments(overSpeeds(spread(peak, squares * SPACING ** 2)));
      expect(after.total).toBeCloseTo(1, 9);
      expect(after.mean).toBeCloseTo(SPEEDS[50]!, 9);
      expect(after.variance / SPACING ** 2).toBeCloseTo(squares, 6);
    },
  );

  it('leaves one hill, without teeth', () => {
    const hill = [...overSpeeds(spread(peak, 5 * SPACING ** 2))].slice(40, 51);
    expect(hill).toEqual(hill.toSorted((a, b) => a - b));
  });

  it('loses nothing at the ends of the grid, and does not change what it was given', () => {
    const before = FLAT.values.slice();
    expect(moments(overSpeeds(spread(FLAT, 6 * SPACING ** 2))).total).toBeCloseTo(1, 9);
    expect(FLAT.values).toEqual(before);
  });
});
