/** An exact fraction, always in lowest terms with a positive denominator. Note values are fractions of a whole note. */
export interface Ratio {
  readonly n: number;
  readonly d: number;
}

const gcd = (a: number, b: number): number => (b === 0 ? Math.abs(a) : gcd(b, a % b));

/** `ratio(6, 8)` is 3/4. Throws RangeError unless both are whole numbers and d is not 0. */
export function ratio(n: number, d = 1): Ratio {
  if (!Number.isSafeInteger(n) || !Number.isSafeInteger(d) || d === 0) {
    throw new RangeError(`not a fraction of whole numbers: ${n}/${d}`);
  }
  const g = (d < 0 ? -1 : 1) * (gcd(n, d) || 1);
  return { n: n / g + 0, d: d / g };
}

export const add = (a: Ratio, b: Ratio): Ratio => ratio(a.n * b.d + b.n * a.d, a.d * b.d);
export const subtract = (a: Ratio, b: Ratio): Ratio => ratio(a.n * b.d - b.n * a.d, a.d * b.d);
export const multiply = (a: Ratio, b: Ratio): Ratio => ratio(a.n * b.n, a.d * b.d);
export const divide = (a: Ratio, b: Ratio): Ratio => ratio(a.n * b.d, a.d * b.n);
/** Negative, zero or positive as a is below, equal to or above b. */
export const compare = (a: Ratio, b: Ratio): number => a.n * b.d - b.n * a.d;
export const toNumber = (r: Ratio): number => r.n / r.d;
/** `format(ratio(3, 8))` is '3/8'; a whole number stands alone. */
export const format = (r: Ratio): string => (r.d === 1 ? `${r.n}` : `${r.n}/${r.d}`);

export const ZERO: Ratio = { n: 0, d: 1 };
export const QUARTER: Ratio = { n: 1, d: 4 };
