import { describe, expect, it } from 'vitest';
import { EVEN_WEIGHTS, timesLikelihoods, tempoWeights, spreadTempo } from '../../src/ladder/speed/grid-weights.ts';
import { GRID_SIZE, CURVE_KINDS, LOG_SPACING, LOG_TEMPOS } from '../../src/ladder/speed/estimate-grid.ts';

/** All weight on one tempo. */
const peak = timesLikelihoods(EVEN_WEIGHTS, [
  Float64Array.from({ length: GRID_SIZE }, (_, cell) => (Math.floor(cell / CURVE_KINDS.length) === 50 ? 1 : 1e-30)),
]);

function moments(weights: Float64Array): { total: number; mean: number; variance: number } {
  const total = weights.reduce((a, b) => a + b, 0);
  const mean = weights.reduce((sum, w, i) => sum + w * LOG_TEMPOS[i]!, 0) / total;
  return { total, mean, variance: weights.reduce((sum, w, i) => sum + w * (LOG_TEMPOS[i]! - mean) ** 2, 0) / total };
}

describe('what days do to the weights', () => {
  // The variance of a sum of independent steps is the sum of their variances (mathematics).
  it.each([0.05, 0.5, 1.2, 1.3, 3, 4.56, 7.5])(
    'spreads them by just the variance asked for: %d squares of the grid',
    (squares) => {
      const after = moments(tempoWeights(spreadTempo(peak, squares * LOG_SPACING ** 2)));
      expect(after.total).toBeCloseTo(1, 9);
      expect(after.mean).toBeCloseTo(LOG_TEMPOS[50]!, 9);
      expect(after.variance / LOG_SPACING ** 2).toBeCloseTo(squares, 6);
    },
  );

  it('leaves one hill, without teeth', () => {
    const hill = [...tempoWeights(spreadTempo(peak, 5 * LOG_SPACING ** 2))].slice(40, 51);
    expect(hill).toEqual(hill.toSorted((a, b) => a - b));
  });

  it('loses nothing at the ends of the grid, and does not change what it was given', () => {
    const before = EVEN_WEIGHTS.values.slice();
    expect(moments(tempoWeights(spreadTempo(EVEN_WEIGHTS, 6 * LOG_SPACING ** 2))).total).toBeCloseTo(1, 9);
    expect(EVEN_WEIGHTS.values).toEqual(before);
  });
});
