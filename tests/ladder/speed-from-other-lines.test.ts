import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/common/chance.ts';
import type { Line } from '../../src/ladder/line.ts';
import {
  type Reading,
  pooled,
  predictEachFromOthers,
  predictLine,
} from '../../src/ladder/speed/speed-from-other-lines.ts';
import { solved } from './linear-equations.ts';

const name = (key: string, exercise = 'a', articulation = 'slurred'): Line => ({ exercise, articulation, key });

/** What the model says about any player: sixteenths at 75, within a factor. */
const [MEAN, VARIANCE] = [Math.log(5), 0.55 ** 2];

/** Variances that two lines share, as the model supposes them. */
const EXERCISE = 0.2 ** 2;
const ARTICULATION = 0.1 ** 2;
const BOTH = EXERCISE + ARTICULATION + 0.08 ** 2;
const KEY = 0.06 ** 2;
const ALL = BOTH + KEY + 0.05 ** 2 + 0.05 ** 2;

describe('one other line', () => {
  const reading: Reading = { line: name('C'), speed: 2, sd: 0.1 };

  it.each<[string, Line, number]>([
    ['of nothing in common', name('F', 'b', 'single'), 0],
    ['of the same exercise', name('F', 'a', 'single'), EXERCISE],
    ['of the same articulation', name('F', 'b'), ARTICULATION],
    ['of the same key', name('C', 'b', 'single'), KEY],
    ['of the same exercise and articulation', name('F'), BOTH],
    ['of the same exercise and key', name('C', 'a', 'single'), EXERCISE + KEY + 0.05 ** 2],
    ['of the same articulation and key', name('C', 'b'), ARTICULATION + KEY],
    ['that is the line itself', name('C'), ALL],
  ])('%s says as much as two normal variables do', (_, line, shared) => {
    for (const scale of [1, 2]) {
      // The conditional normal distribution (any handbook): covariance over variance of what was read.
      const covariance = VARIANCE + scale ** 2 * shared;
      const own = VARIANCE + scale ** 2 * ALL;
      const { mean, sd } = predictLine(pooled([reading], scale), line);
      expect(mean).toBeCloseTo(MEAN + (covariance / (own + 0.1 ** 2)) * (2 - MEAN), 12);
      expect(sd).toBeCloseTo(Math.sqrt(own - covariance ** 2 / (own + 0.1 ** 2)), 12);
    }
  });

  it('or none leaves any player', () => {
    const { mean, sd } = predictLine(pooled([]), name('C'));
    expect(mean).toBeCloseTo(MEAN, 12);
    expect(sd).toBeCloseTo(Math.sqrt(VARIANCE + ALL), 12);
  });
});

describe('several other lines', () => {
  const readings: readonly Reading[] = [
    { line: name('C'), speed: 1.5, sd: 0.05 },
    { line: name('F'), speed: 1.6, sd: 0.1 },
    { line: name('C', 'b'), speed: 1.9, sd: 0.08 },
    { line: name('G', 'b'), speed: 2, sd: 0.2 },
  ];

  it(
    'leave one out by the closed form as by doing it (Rasmussen and Williams, Gaussian Processes, 5.4.2; from ' +
      'memory)',
    () => {
      const pool = pooled(readings);
      const closed = predictEachFromOthers(pool);
      readings.forEach((reading, i) => {
        const rest = readings.filter((_, j) => j !== i);
        // The scale must be the same for both; these few readings choose the usual one either way.
        const again = predictLine(pooled(rest), reading.line);
        expect(pooled(rest).scale).toBe(pool.scale);
        expect(closed[i]!.mean).toBeCloseTo(again.mean, 9);
        expect(closed[i]!.sd).toBeCloseTo(again.sd, 9);
      });
    },
  );
});

/** How much two lines share, and the covariance of what was read of some: written anew for the test. */
function inCommon(a: Line, b: Line): number {
  const [e, w, k] = [a.exercise === b.exercise, a.articulation === b.articulation, a.key === b.key];
  return (
    (e ? EXERCISE : 0) +
    (w ? ARTICULATION : 0) +
    (e && w ? 0.08 ** 2 : 0) +
    (k ? KEY : 0) +
    (e && k ? 0.05 ** 2 : 0) +
    (e && w && k ? 0.05 ** 2 : 0)
  );
}

/** The determinant by elimination, as its logarithm: the product of the pivots. */
function logDeterminant(rows: readonly (readonly number[])[]): number {
  let [rest, log] = [rows.map((row) => [...row]), 0];
  while (rest.length > 0) {
    const [first = [], ...others] = rest;
    log += Math.log(first[0]!);
    rest = others.map((row) => row.slice(1).map((cell, j) => cell - (row[0]! / first[0]!) * first[j + 1]!));
  }
  return log;
}

/** The scale of most weight: the density of the normal distribution, times that of the scale itself. */
function likeliest(readings: readonly Reading[]): number {
  const weight = (scale: number): number => {
    const covariance = readings.map((a, i) =>
      readings.map((b, j) => VARIANCE + scale ** 2 * inCommon(a.line, b.line) + (i === j ? a.sd ** 2 : 0)),
    );
    const off = readings.map(({ speed }) => speed - MEAN);
    const square = solved(covariance, off).reduce((sum, x, i) => sum + x * off[i]!, 0);
    return -0.5 * square - 0.5 * logDeterminant(covariance) - 0.5 * (Math.log(scale) / 0.6) ** 2;
  };
  return [0.35, 0.6, 1, 1.7, 2.8].reduce((best, scale) => (weight(scale) > weight(best) ? scale : best));
}

const many = (first: number, second: number, count: number): readonly Reading[] =>
  Array.from({ length: count }, (_, i) => ({
    line: name(`key ${i % 12}`, `exercise ${Math.floor(i / 12)}`),
    speed: 1.7 + (i % 4 < 2 ? 0.5 : -0.5) * (i % 2 === 0 ? first : second),
    sd: 0.05,
  }));

/** Lines of three exercises in four keys, off from each other by so much. */
const lines = (off: number, seed: number): readonly Reading[] => {
  const chance = seeded(seed);
  return ['a', 'b', 'c'].flatMap((exercise) =>
    ['C', 'F', 'Bb', 'Eb'].map((key) => ({
      line: name(key, exercise),
      speed: 1.7 + off * (chance() - 0.5),
      sd: 0.03 + 0.04 * chance(),
    })),
  );
};

describe('how much the lines of a player differ', () => {
  it.each([0.02, 0.2, 0.5, 0.9, 1.4, 2.5])('is read off the lines, which are %d apart', (off) => {
    for (const seed of [1, 2, 3]) expect(pooled(lines(off, seed)).scale).toBe(likeliest(lines(off, seed)));
  });

  it('takes every scale there is, from lines all alike to lines far apart', () => {
    const scales = [0.02, 0.3, 0.5, 0.9, 2.5].map((off) => pooled(lines(off, 1)).scale);
    expect(scales).toEqual(scales.toSorted((a, b) => a - b));
    expect(new Set(scales).size).toBeGreaterThanOrEqual(4);
  });

  it('is read off some of them where there are more than 120', () => {
    const [alike, apart] = [0.01, 3];
    expect(pooled(many(alike, apart, 122)).scale).toBe(0.35);
    expect(pooled(many(apart, alike, 122)).scale).toBe(2.8);
    expect(pooled(many(alike, apart, 120)).scale).toBe(2.8);
  });
});
