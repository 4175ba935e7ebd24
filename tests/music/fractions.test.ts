/**
 * Fractions of a whole note and of a second. The reference is arithmetic itself: cross-multiplication in whole numbers,
 * and a table worked out with the `fractions` module of Python's standard library.
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  EXACT_ZERO,
  compareMoments,
  decimal,
  exact,
  frameOf,
  momentOf,
  plus,
  seconds,
  times,
} from '../../src/music/time/exact-seconds.ts';
import {
  QUARTER,
  ZERO,
  add,
  compare,
  divide,
  format,
  multiply,
  ratio,
  subtract,
  toNumber,
} from '../../src/music/time/ratio.ts';

const whole = fc.integer({ min: -5000, max: 5000 });
const positive = fc.integer({ min: 1, max: 5000 });
const fraction = fc.tuple(whole, positive).map(([n, d]) => ratio(n, d));
const big = fc.tuple(fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n }), fc.bigInt({ min: 1n, max: 10n ** 20n }));

const common = (a: bigint, b: bigint): bigint => (b === 0n ? (a < 0n ? -a : a) : common(b, a % b));

describe('a fraction of a whole note', () => {
  it('is in lowest terms with a positive denominator, and worth what was asked for', () => {
    fc.assert(
      fc.property(whole, whole, (n, d) => {
        fc.pre(d !== 0);
        const made = ratio(n, d);
        expect(made.n * d).toBe(n * made.d + 0);
        expect(made.d).toBeGreaterThan(0);
        expect(common(BigInt(made.n), BigInt(made.d))).toBe(1n);
      }),
    );
    expect(ratio(6, 8)).toEqual({ n: 3, d: 4 });
    expect(ratio(3, -4)).toEqual({ n: -3, d: 4 });
    expect(ratio(7)).toEqual({ n: 7, d: 1 });
    expect(Object.is(ratio(0, -5).n, 0)).toBe(true);
  });

  it('is made of whole numbers, or it is a mistake of ours', () => {
    for (const [n, d] of [
      [0.5, 1],
      [1, 0.5],
      [1, 0],
      [NaN, 1],
      [1, Infinity],
      [2 ** 53, 1],
    ] as const)
      expect(() => ratio(n, d)).toThrow(new RangeError(`not a fraction of whole numbers: ${n}/${d}`));
  });

  it('adds, subtracts, multiplies and divides as schools teach it', () => {
    fc.assert(
      fc.property(fraction, fraction, (a, b) => {
        expect(add(a, b)).toEqual(ratio(a.n * b.d + b.n * a.d, a.d * b.d));
        expect(add(subtract(a, b), b)).toEqual(a);
        expect(multiply(a, b)).toEqual(ratio(a.n * b.n, a.d * b.d));
        if (b.n !== 0) expect(multiply(divide(a, b), b)).toEqual(a);
        expect(Math.sign(compare(a, b))).toBe(Math.sign(a.n / a.d - b.n / b.d));
        expect(toNumber(a)).toBe(a.n / a.d);
      }),
    );
  });

  it('is written as one', () => {
    expect([ratio(3, 8), ratio(2), ratio(-1, 3), ZERO, QUARTER].map(format)).toEqual(['3/8', '2', '-1/3', '0', '1/4']);
  });
});

describe('a moment', () => {
  it('is a sum that loses nothing', () => {
    fc.assert(
      fc.property(big, big, ([n, d], [m, e]) => {
        const [a, b] = [exact(n, d), exact(m, e)];
        expect(a.n * d).toBe(n * a.d);
        expect(common(a.n, a.d)).toBe(1n);
        const sum = plus(a, b);
        expect(sum.n * d * e).toBe((n * e + m * d) * sum.d);
        const difference = n * e - m * d;
        expect(compareMoments(a, b)).toBe(difference > 0n ? 1 : difference < 0n ? -1 : 0);
      }),
    );
    expect(exact(6n, 8n)).toEqual({ n: 3n, d: 4n });
    expect(compareMoments(exact(1n, 3n), exact(2n, 6n))).toBe(0);
    expect(times(exact(5n, 6n), ratio(3, 10))).toEqual({ n: 1n, d: 4n });
    expect(plus(EXACT_ZERO, exact(1n, 3n))).toEqual({ n: 1n, d: 3n });
  });

  it.each([0n, -1n])('has no denominator of %s', (d) => {
    expect(() => exact(1n, d)).toThrow(new RangeError('an exact fraction needs a positive denominator'));
  });

  it('is as many seconds as the nearest double says, however long its numbers are', () => {
    expect(seconds(exact(1n, 8n))).toBe(0.125);
    expect(seconds(exact(7n, 2n))).toBe(3.5);
    expect(seconds(exact(1n, 3n))).toBe(1 / 3);
    // Python: float(Fraction(10**40 + 1, 3 * 10**39)) is 3.3333333333333335.
    expect(seconds(exact(10n ** 40n + 1n, 3n * 10n ** 39n))).toBe(3.3333333333333335);
    expect(seconds(exact(-3n, 4n))).toBe(-0.75);
  });

  // Python: math.floor(Fraction(moment) * 48000 + Fraction(1, 2)).
  it.each([
    [1n, 7n, 6857],
    [-1n, 7n, -6857],
    [1n, 96_000n, 1],
    [-1n, 96_000n, 0],
    [-3n, 96_000n, -1],
    [60n, 63n, 45_714],
    [123_456_789n, 1000n, 5_925_925_872],
    [0n, 1n, 0],
  ])('of %s/%s seconds is frame %i at 48 kHz, halves up', (n, d, frame) => {
    expect(frameOf(exact(n, d), 48_000)).toBe(frame);
  });

  it('of a whole frame comes back as that frame, at every rate', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.constantFrom(44_100, 48_000, 96_000), (frame, rate) => {
        expect(frameOf(momentOf(frame, rate), rate)).toBe(frame);
        expect(momentOf(frame, rate)).toEqual(exact(BigInt(frame), BigInt(rate)));
      }),
    );
  });

  it('takes tempos with up to six decimals as they are written', () => {
    expect(decimal(72.5)).toEqual({ n: 145n, d: 2n });
    expect(decimal(0.000001)).toEqual({ n: 1n, d: 1_000_000n });
    expect(decimal(114.9663)).toEqual({ n: 1_149_663n, d: 10_000n });
  });
});
