/** Moments as exact fractions of a second: sums of any number of bars at any tempo lose nothing. */
import type { Ratio } from './ratio.ts';
import type { FrameRate, Frames, Seconds } from '../../common/units.ts';

/** A fraction in lowest terms with a positive denominator. */
export interface Exact {
  readonly n: bigint;
  readonly d: bigint;
}

const gcd = (a: bigint, b: bigint): bigint => {
  let [x, y] = [a < 0n ? -a : a, b];
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
};

/** `exact(6n, 8n)` is 3/4. Throws RangeError where d is not positive. */
export function exact(n: bigint, d: bigint): Exact {
  if (d <= 0n) throw new RangeError('an exact fraction needs a positive denominator');
  const g = gcd(n, d);
  return g === 1n ? { n, d } : { n: n / g, d: d / g };
}

export const EXACT_ZERO: Exact = { n: 0n, d: 1n };
export const plus = (a: Exact, b: Exact): Exact => exact(a.n * b.d + b.n * a.d, a.d * b.d);
export const times = (a: Exact, k: Ratio): Exact => exact(a.n * BigInt(k.n), a.d * BigInt(k.d));
/** Negative, zero or positive as a is before, at or after b. */
export const compareMoments = (a: Exact, b: Exact): number => {
  const difference = a.n * b.d - b.n * a.d;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
};

/** The nearest double. Safe where numerator and denominator are too long for one. */
export function seconds(e: Exact): Seconds {
  const whole = e.n / e.d;
  return Number(whole) + Number(((e.n - whole * e.d) << 64n) / e.d) / 2 ** 64;
}

/** The nearest whole frame, halves up: the only place where a moment is rounded. */
export const frameOf = (e: Exact, rate: FrameRate): Frames => {
  const twice = 2n * e.d;
  const raised = 2n * e.n * BigInt(rate) + e.d;
  const floor = raised >= 0n ? raised / twice : -((-raised + twice - 1n) / twice);
  return Number(floor);
};

/** The moment of a whole frame. */
export const momentOf = (frame: Frames, rate: FrameRate): Exact => exact(BigInt(frame), BigInt(rate));

/** A decimal of at most six places as a fraction: `decimal(72.5)` is 145/2. */
export const decimal = (value: number): Exact => exact(BigInt(Math.round(value * 1e6)), 1_000_000n);
