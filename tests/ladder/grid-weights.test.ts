import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/common/chance.ts';
import {
  EVEN_WEIGHTS,
  type GridWeights,
  spreadTempo,
  tempoWeights,
  timesLikelihoods,
  timesTempoWeight,
} from '../../src/ladder/speed/grid-weights.ts';
import { CURVE_KINDS, GRID_SIZE, LOG_SPACING, LOG_TEMPOS } from '../../src/ladder/speed/estimate-grid.ts';

const WIDTH = CURVE_KINDS.length;
const ROWS = LOG_TEMPOS.length;

/** All weight on one tempo. */
const peakAt = (row: number): GridWeights =>
  timesLikelihoods(EVEN_WEIGHTS, [
    Float64Array.from({ length: GRID_SIZE }, (_, cell) => (Math.floor(cell / WIDTH) === row ? 1 : 1e-30)),
  ]);
const peak = peakAt(50);

function moments(weights: Float64Array): { total: number; mean: number; variance: number } {
  const total = weights.reduce((a, b) => a + b, 0);
  const mean = weights.reduce((sum, w, i) => sum + w * LOG_TEMPOS[i]!, 0) / total;
  return { total, mean, variance: weights.reduce((sum, w, i) => sum + w * (LOG_TEMPOS[i]! - mean) ** 2, 0) / total };
}

describe('before any mark', () => {
  it('every tempo weighs the same, and the kinds of curve as they are supposed', () => {
    expect(EVEN_WEIGHTS).toMatchObject({ low: 0, high: ROWS });
    expect(EVEN_WEIGHTS.values).toHaveLength(GRID_SIZE);
    tempoWeights(EVEN_WEIGHTS).forEach((weight) => expect(weight).toBeCloseTo(1 / ROWS, 12));
    CURVE_KINDS.forEach(({ weight }, kind) => expect(EVEN_WEIGHTS.values[kind]).toBeCloseTo(weight / ROWS, 12));
    expect(CURVE_KINDS.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
  });
});

describe('what marks do to the weights', () => {
  const chance = seeded(6);
  const rows = Array.from({ length: 100 }, () => Float64Array.from({ length: GRID_SIZE }, () => 0.2 + chance()));

  it.each([1, 2, 3, 4, 5, 8, 31, 32, 33, 64, 65, 100])('is to multiply them, %d at a time', (count) => {
    const found = timesLikelihoods(EVEN_WEIGHTS, rows.slice(0, count)).values;
    const logs = [...EVEN_WEIGHTS.values].map((value, cell) =>
      rows.slice(0, count).reduce((sum, row) => sum + Math.log(row[cell]!), Math.log(value)),
    );
    const most = Math.max(...logs);
    const total = logs.reduce((sum, log) => sum + Math.exp(log - most), 0);
    logs.forEach((log, cell) => {
      if (cell % 97 === 0) expect(found[cell]! / (Math.exp(log - most) / total)).toBeCloseTo(1, 9);
    });
    expect(found.reduce((a, b) => a + b)).toBeCloseTo(1, 9);
  });

  it('reaches only as far as there are weights', () => {
    const some = spreadTempo(peak, 0.3 * LOG_SPACING ** 2);
    for (const after of [timesLikelihoods(some, rows.slice(0, 3)), timesTempoWeight(some, () => 0.5)]) {
      expect(after).toMatchObject({ low: some.low, high: some.high });
      const outside = [...tempoWeights(after)].filter((_, row) => row < some.low || row >= some.high);
      expect(outside.every((weight) => weight === 0)).toBe(true);
      expect(moments(tempoWeights(after)).total).toBeCloseTo(1, 12);
    }
  });

  it('never rules a tempo out for good', () => {
    const against = Float64Array.from({ length: GRID_SIZE }, (_, cell) => (cell < GRID_SIZE / 2 ? 1e-6 : 1));
    const refuted = timesLikelihoods(
      EVEN_WEIGHTS,
      Array.from({ length: 96 }, () => against),
    );
    expect(Math.min(...refuted.values)).toBeGreaterThanOrEqual(1e-40);
    // 96 marks for it turn the balance again, as far as the numbers reach.
    const forIt = against.map((likelihood) => 1e-6 / likelihood);
    const back = tempoWeights(
      timesLikelihoods(
        refuted,
        Array.from({ length: 96 }, () => forIt),
      ),
    );
    expect(back.slice(0, ROWS / 2).reduce((a, b) => a + b)).toBeGreaterThan(0.99);
  });

  it('and what is believed of the tempo multiplies whole rows', () => {
    const weighed = tempoWeights(timesTempoWeight(EVEN_WEIGHTS, (speed) => (speed > Math.log(100) ? 3 : 1)));
    const faster = LOG_TEMPOS.filter((speed) => speed > Math.log(100)).length;
    const unit = 1 / (3 * faster + (ROWS - faster));
    LOG_TEMPOS.forEach((speed, row) => expect(weighed[row]).toBeCloseTo(speed > Math.log(100) ? 3 * unit : unit, 12));
  });
});

/** The same blur by a plain sum over all tempos: what would leave the grid stays at its end. */
function blurred(from: readonly number[], reach: number, share: number): readonly number[] {
  const out = from.map((weight) => weight * (1 - 2 * share));
  from.forEach((weight, row) => {
    for (const to of [row - reach, row + reach]) {
      const target = to < 0 || to >= from.length ? row : to;
      out[target]! += weight * share;
    }
  });
  return out;
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

  // A share of v / (2 n r^2) goes r tempos each way in each of n passes, which adds up to the variance v.
  it.each<[number, readonly (readonly [reach: number, share: number])[]]>([
    [0.3, [[1, 0.15]]],
    [0.6, [[1, 0.3]]],
    [
      0.9,
      [
        [1, 0.225],
        [1, 0.225],
      ],
    ],
    [
      2.9,
      [
        [1, 0.25],
        [2, 0.3],
      ],
    ],
    [
      5,
      [
        [1, 0.25],
        [2, 0.28125],
        [2, 0.28125],
      ],
    ],
  ])('at the ends and in the middle, by %d squares', (squares, passes) => {
    for (const row of [0, 1, 2, 3, 50, ROWS - 4, ROWS - 3, ROWS - 2, ROWS - 1]) {
      const before = Array.from({ length: ROWS }, (_, i) => (i === row ? 1 : 0));
      const wanted = passes.reduce<readonly number[]>((now, [reach, share]) => blurred(now, reach, share), before);
      const found = tempoWeights(spreadTempo(peakAt(row), squares * LOG_SPACING ** 2));
      wanted.forEach((weight, i) => expect(found[i], `row ${row}, ${i}`).toBeCloseTo(weight, 9));
    }
  });

  it('keeps each kind of curve to itself', () => {
    const one = timesLikelihoods(EVEN_WEIGHTS, [
      Float64Array.from({ length: GRID_SIZE }, (_, cell) => (cell === 50 * WIDTH + 4 ? 1 : 1e-30)),
    ]);
    const after = spreadTempo(one, 2.9 * LOG_SPACING ** 2).values;
    after.forEach((weight, cell) => {
      if (cell % WIDTH !== 4) expect(weight).toBeLessThan(1e-20);
    });
    expect(after[51 * WIDTH + 4]).toBeGreaterThan(0.1);
  });

  it('begins where there is anything to spread, and ends as far as it reached', () => {
    expect(spreadTempo(peak, 0.3 * LOG_SPACING ** 2)).toMatchObject({ low: 49, high: 52 });
    expect(spreadTempo(peak, 5 * LOG_SPACING ** 2)).toMatchObject({ low: 45, high: 56 });
    expect(spreadTempo(peakAt(0), 5 * LOG_SPACING ** 2)).toMatchObject({ low: 0, high: 6 });
    expect(spreadTempo(peakAt(ROWS - 1), 5 * LOG_SPACING ** 2)).toMatchObject({ low: ROWS - 6, high: ROWS });
  });

  it('leaves one hill, without teeth', () => {
    const hill = [...tempoWeights(spreadTempo(peak, 5 * LOG_SPACING ** 2))].slice(40, 51);
    expect(hill).toEqual(hill.toSorted((a, b) => a - b));
  });

  it('loses nothing at the ends of the grid, and does not change what it was given', () => {
    const before = EVEN_WEIGHTS.values.slice();
    for (const squares of [0.3, 0.9, 2.9, 6]) {
      expect(moments(tempoWeights(spreadTempo(EVEN_WEIGHTS, squares * LOG_SPACING ** 2))).total).toBeCloseTo(1, 9);
      expect(EVEN_WEIGHTS.values).toEqual(before);
    }
  });
});
