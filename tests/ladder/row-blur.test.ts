import { describe, expect, it } from 'vitest';
import { LOG_TEMPOS } from '../../src/ladder/speed/estimate-grid.ts';
import { type Rows, blurOf, blurred, tapsOf, trimmed } from '../../src/ladder/speed/row-blur.ts';

const ROWS = LOG_TEMPOS.length;

/** One cell a row, all weight on one tempo. */
const peakAt = (row: number): Rows => ({ values: Float64Array.of(1), low: row, high: row + 1 });

/** Over the whole grid: what each tempo has. */
const whole = ({ values, low }: Rows): readonly number[] =>
  Array.from({ length: ROWS }, (_, row) => values[row - low] ?? 0);

function moments(weights: readonly number[]): { total: number; mean: number; variance: number } {
  const total = weights.reduce((a, b) => a + b, 0);
  const mean = weights.reduce((sum, w, i) => sum + w * i, 0) / total;
  return { total, mean, variance: weights.reduce((sum, w, i) => sum + w * (i - mean) ** 2, 0) / total };
}

const spread = (row: number, mean: number, variance: number): readonly number[] =>
  whole(blurred(peakAt(row), blurOf([{ mean, variance }], 1)));

describe('a blur', () => {
  // The mean and the variance of a sum of independent steps are the sums of theirs (mathematics).
  it.each([
    [0, 0.05],
    [0, 0.5],
    [0, 0.6],
    [0, 1.3],
    [0, 3],
    [0, 7.5],
    [0, 40],
    [0.25, 0.2],
    [0.5, 0.25],
    [0.5, 0.36],
    [0.5, 6],
    [-0.3, 2],
  ])('moves by just %d tempos and spreads by just %d squares', (mean, variance) => {
    const after = moments(spread(50, mean, variance));
    expect(after.total).toBeCloseTo(1, 9);
    expect(after.mean - 50).toBeCloseTo(mean, 9);
    expect(after.variance).toBeCloseTo(variance, 9);
  });

  it('that moves by half a tempo spreads by a quarter of a square at least: half stays, half goes', () => {
    const after = spread(50, 0.5, 0.01);
    expect(after[50]).toBeCloseTo(0.5, 12);
    expect(after[51]).toBeCloseTo(0.5, 12);
  });

  it('leaves one hill, without teeth', () => {
    for (const variance of [0.4, 0.7, 2.2, 5, 12, 30]) {
      const hill = spread(50, 0, variance).slice(20, 51);
      expect(hill).toEqual(hill.toSorted((a, b) => a - b));
    }
  });

  /** The same by a plain sum over all tempos: what would leave the grid stays at its end. */
  function plainly(from: readonly number[], reach: number, share: number): readonly number[] {
    const out = from.map((weight) => weight * (1 - 2 * share));
    from.forEach((weight, row) => {
      for (const to of [row - reach, row + reach]) out[to < 0 || to >= ROWS ? row : to]! += weight * share;
    });
    return out;
  }

  it.each<[number, readonly (readonly [reach: number, share: number])[]]>([
    [0.3, [[1, 0.15]]],
    // A quarter each way is half a square; what is left goes two tempos, where it counts four times.
    [
      0.9,
      [
        [1, 0.25],
        [2, 0.05],
      ],
    ],
    [
      5,
      [
        [1, 0.25],
        [2, 0.25],
        [4, 2.5 / 32],
      ],
    ],
  ])('is the same at the ends of the grid and in the middle, by %d squares', (squares, passes) => {
    for (const row of [0, 1, 3, 50, ROWS - 4, ROWS - 2, ROWS - 1]) {
      const wanted = passes.reduce((now, [reach, share]) => plainly(now, reach, share), whole(peakAt(row)));
      spread(row, 0, squares).forEach((weight, i) => expect(weight, `row ${row}, ${i}`).toBeCloseTo(wanted[i]!, 12));
    }
  });

  it('has each block by its own measure, and keeps them apart', () => {
    const two: Rows = { values: Float64Array.of(1, 10, 100, 1000), low: 50, high: 51 };
    const after = blurred(
      two,
      blurOf(
        [
          { mean: 0, variance: 0.3 },
          { mean: 0.5, variance: 3 },
        ],
        2,
      ),
    );
    const column = (k: number): readonly number[] => [...after.values].filter((_, i) => i % 4 === k);
    for (const [k, size, squares] of [
      [0, 1, 0.3],
      [1, 10, 0.3],
      [2, 100, 3],
      [3, 1000, 3],
    ] as const) {
      expect(moments(column(k)).total).toBeCloseTo(size, 6);
      expect(moments(column(k)).variance).toBeCloseTo(squares, 6);
    }
    expect([after.low, after.high]).toEqual([43, 58]);
  });

  it('does not change what it was given, nor what it gave before', () => {
    const rows = peakAt(50);
    const first = blurred(rows, blurOf([{ mean: 0, variance: 3 }], 1));
    const copy = first.values.slice();
    blurred(first, blurOf([{ mean: 0.2, variance: 9 }], 1));
    expect(first.values).toEqual(copy);
    expect(rows.values).toEqual(Float64Array.of(1));
  });

  it('of nothing has one tap; of more as many below as above', () => {
    expect([...tapsOf({ mean: 0, variance: 0 })]).toEqual([1]);
    expect([...tapsOf({ mean: 0, variance: 0.3 })].map((tap) => tap.toFixed(6))).toEqual([
      '0.150000',
      '0.700000',
      '0.150000',
    ]);
    expect(tapsOf({ mean: 0, variance: 1.5 })).toHaveLength(7);
  });
});

describe('rows with next to nothing at the ends', () => {
  const rows = { values: Float64Array.of(1e-9, 0, 0.4, 1e-9, 0, 0, 0.1, 0.5, 1e-9, 1e-9), low: 20, high: 25 };

  it('lose them, but none between others', () => {
    const { values, low, high } = trimmed(rows, 1e-6);
    expect([low, high]).toEqual([21, 24]);
    expect([...values]).toEqual([0.4, 1e-9, 0, 0, 0.1, 0.5]);
  });

  it('keep one at least', () => {
    const { low, high, values } = trimmed(rows, 10);
    expect(high - low).toBe(1);
    expect(values).toHaveLength(2);
  });
});
