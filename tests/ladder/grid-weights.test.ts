import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/common/chance.ts';
import type { DayKind } from '../../src/ladder/speed/day-kinds.ts';
import {
  afterNights,
  evenRows,
  eveningOf,
  gridOf,
  tempoWeights,
  timesLikelihoods,
  unmarkedDay,
} from '../../src/ladder/speed/grid-weights.ts';
import { CURVE_KINDS, GRID_SIZE, LOG_SPACING, LOG_TEMPOS } from '../../src/ladder/speed/estimate-grid.ts';
import type { Rows } from '../../src/ladder/speed/row-blur.ts';

const KINDS = CURVE_KINDS.length;
const ROWS = LOG_TEMPOS.length;

const DAYS: readonly DayKind[] = [
  { drift: 0.004, form: 0.01, gain: 0, weight: 0.5 },
  { drift: 0.02, form: 0.05, gain: 0, weight: 0.3 },
  { drift: 0.02, form: 0.01, gain: 0.02, weight: 0.2 },
];
const WIDTH = KINDS * DAYS.length;

const whole = (rows: Rows): Float64Array => gridOf(rows, () => 1).values;

/** Rows of all kinds of days with all weight on one tempo, and a trace elsewhere. */
const peakAt = (row: number): Rows => {
  const even = evenRows(DAYS);
  return { ...even, values: even.values.map((value, i) => value * (Math.floor(i / WIDTH) === row ? ROWS : 1e-30)) };
};

/** Over the log tempo, of one kind of days. */
function moments({ values, low }: Rows, day: number): { total: number; mean: number; variance: number } {
  let [total, sum, squares] = [0, 0, 0];
  values.forEach((value, i) => {
    if (Math.floor(i / KINDS) % DAYS.length !== day) return;
    const speed = LOG_TEMPOS[low + Math.floor(i / WIDTH)]!;
    total += value;
    sum += value * speed;
    squares += value * speed ** 2;
  });
  return { total, mean: sum / total, variance: squares / total - (sum / total) ** 2 };
}

describe('before any mark', () => {
  const even = evenRows(DAYS);

  it('every tempo weighs the same, and the kinds of curve and of days as they are supposed', () => {
    expect(even).toMatchObject({ low: 0, high: ROWS });
    expect(even.values).toHaveLength(GRID_SIZE * DAYS.length);
    tempoWeights(gridOf(even, () => 1)).forEach((weight) => expect(weight).toBeCloseTo(1 / ROWS, 12));
    const cells = whole(even);
    CURVE_KINDS.forEach(({ weight }, kind) => expect(cells[kind]).toBeCloseTo(weight / ROWS, 12));
    DAYS.forEach(({ weight }, day) => expect(moments(even, day).total).toBeCloseTo(weight, 12));
    expect(CURVE_KINDS.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
  });

  it('a weight of the tempo multiplies whole rows', () => {
    const weighed = tempoWeights(gridOf(even, (speed) => (speed > Math.log(100) ? 3 : 1)));
    const faster = LOG_TEMPOS.filter((speed) => speed > Math.log(100)).length;
    const unit = 1 / (3 * faster + (ROWS - faster));
    LOG_TEMPOS.forEach((speed, row) => expect(weighed[row]).toBeCloseTo(speed > Math.log(100) ? 3 * unit : unit, 12));
  });
});

describe("the likelihood of a day's marks", () => {
  const chance = seeded(6);
  const rows = Array.from({ length: 100 }, () => Float64Array.from({ length: GRID_SIZE }, () => 0.2 + chance()));
  const ones = unmarkedDay(evenRows(DAYS), DAYS);

  it.each([1, 2, 3, 4, 5, 8, 31, 32, 33, 64, 65, 100])('is their product, %d at a time', (count) => {
    const found = timesLikelihoods(ones, rows.slice(0, count)).values;
    const logs = [...found].map((_, cell) => rows.slice(0, count).reduce((sum, row) => sum + Math.log(row[cell]!), 0));
    const most = Math.max(...logs);
    const total = logs.reduce((sum, log) => sum + Math.exp(log - most), 0);
    logs.forEach((log, cell) => {
      if (cell % 97 === 0) expect(found[cell]! / (Math.exp(log - most) / total)).toBeCloseTo(1, 9);
    });
    expect(found.reduce((a, b) => a + b)).toBeCloseTo(1, 9);
  });

  it('reaches as far around the morning as a form can', () => {
    // 5 % is 1.6 squares of the grid: a quarter goes one tempo, something two.
    const some = unmarkedDay({ ...evenRows(DAYS), low: 40, high: 50 }, DAYS);
    expect(some).toMatchObject({ low: 37, high: 53 });
    expect(unmarkedDay({ ...some, low: 1, high: ROWS - 1 }, DAYS)).toMatchObject({ low: 0, high: ROWS });
    expect(timesLikelihoods(some, rows.slice(0, 2)).values[5]).toBeGreaterThan(0);
  });

  it('never rules a tempo out for good', () => {
    const against = Float64Array.from({ length: GRID_SIZE }, (_, cell) => (cell < GRID_SIZE / 2 ? 1e-6 : 1));
    const refuted = timesLikelihoods(
      ones,
      Array.from({ length: 96 }, () => against),
    );
    expect(Math.min(...refuted.values)).toBeGreaterThanOrEqual(1e-40);
    const forIt = against.map((likelihood) => 1e-6 / likelihood);
    const back = timesLikelihoods(
      refuted,
      Array.from({ length: 96 }, () => forIt),
    ).values;
    expect(back.slice(0, GRID_SIZE / 2).reduce((a, b) => a + b)).toBeGreaterThan(0.99);
  });
});

describe('an evening', () => {
  it('is the morning times the likelihood, and where the day had a form that is averaged over (mathematics)', () => {
    const morning = peakAt(50);
    // Clean at 51 and above only: what a day's form must have brought.
    const marked: Rows = {
      values: Float64Array.from({ length: GRID_SIZE }, (_, i) => (Math.floor(i / KINDS) >= 51 ? 1 : 0)),
      low: 0,
      high: ROWS,
    };
    const evening = eveningOf(morning, marked, DAYS);
    // A form of 1 % goes one tempo up in 1/32 of the days: its variance is 1/16 of the spacing's square, half each way.
    // One of 5 %: 25/16; a quarter goes one tempo, then (25/16 - 1/2) / 8 go two.
    const two = (25 / 16 - 0.5) / 8;
    const up = two + 0.25 * (1 - 2 * two);
    const parts = [0.5 / 32, 0.3 * up, 0.2 / 32];
    const total = parts.reduce((a, b) => a + b);
    parts.forEach((part, day) => expect(moments(evening, day).total).toBeCloseTo(part / total, 9));
  });

  it('without marks is as the morning was', () => {
    const morning = peakAt(50);
    eveningOf(morning, unmarkedDay(morning, DAYS), DAYS).values.forEach((value, i) =>
      expect(value).toBeCloseTo(morning.values[i]!, 12),
    );
  });
});

describe('nights', () => {
  const evening = peakAt(50);
  const variance = (nights: number, day: number): number => moments(afterNights(evening, nights, DAYS), day).variance;

  it('spread each kind of days by its own drift, up to three; each more by one per cent', () => {
    expect(variance(1, 0)).toBeCloseTo(0.004 ** 2, 9);
    expect(variance(3, 0)).toBeCloseTo(3 * 0.004 ** 2, 9);
    expect(variance(3, 1)).toBeCloseTo(3 * 0.02 ** 2, 9);
    expect(variance(30, 0)).toBeCloseTo(3 * 0.004 ** 2 + 27 * 0.01 ** 2, 9);
    expect(variance(30, 1)).toBeCloseTo(3 * 0.02 ** 2 + 27 * 0.01 ** 2, 9);
  });

  it('bring the gain of one day of practice, however many they are', () => {
    for (const nights of [1, 3, 30]) {
      const found = [0, 1, 2].map((day) => moments(afterNights(evening, nights, DAYS), day).mean - LOG_TEMPOS[50]!);
      [0, 0, 0.02].forEach((gain, day) => expect(found[day]).toBeCloseTo(gain, 9));
    }
    // Half a tempo of the grid.
    expect(0.02 / LOG_SPACING).toBe(0.5);
  });

  it('lose nothing, and do not change what they were given', () => {
    const before = evening.values.slice();
    const after = afterNights(evening, 10, DAYS);
    DAYS.forEach(({ weight }, day) => expect(moments(after, day).total).toBeCloseTo(weight, 9));
    expect(evening.values).toEqual(before);
  });
});
