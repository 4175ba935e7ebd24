/**
 * When notes begin, from the levels of bands: where all of them rise at once. Experimental: it is right for tongued
 * notes in a dry recording; a room or a loud click blurs it, and a slur has nothing to rise.
 */
import type { Seconds } from '../common/units.ts';
import { LEVEL_STEP } from './band-levels.ts';
import { median, quantile } from './statistics.ts';

/** A rise is measured over so many steps. */
const OVER = 3;
/** What lies further below the loudest counts as silence, in decibels. */
const DEPTH = 45;
/** Nearer to each other than this, the higher one counts. */
const APART: Seconds = 0.03;
/** At least so many decibels, in the mean of the bands. */
const LEAST = 2;
/** And so much of what the clear ones of this recording have. */
const SHARE = 0.18;
const CLEAR_ONES = 0.97;

/** How much the bands rise at each step, in decibels, in their mean. */
function rises(levels: readonly Float32Array[]): readonly number[] {
  const floor = levels.reduce((most, row) => Math.max(most, ...row), -Infinity) - DEPTH;
  return levels.map((row, i) => {
    const before = levels[i - OVER];
    if (!before) return 0;
    let sum = 0;
    row.forEach((level, b) => (sum += Math.max(0, Math.max(level, floor) - Math.max(before[b] as number, floor))));
    return sum / row.length;
  });
}

/** The highest of its neighbourhood; of equals the first. */
function isPeak(values: readonly number[], i: number, reach: number): boolean {
  const value = values[i] as number;
  for (let j = Math.max(0, i - reach); j <= i + reach && j < values.length; j++) {
    const other = values[j] as number;
    if (other > value || (other === value && j < i)) return false;
  }
  return true;
}

/** Between the steps, by the parabola through the peak. */
function placeOf(values: readonly number[], i: number): number {
  const [a, b, c] = [values[i - 1] ?? 0, values[i] as number, values[i + 1] ?? 0];
  const bend = a - 2 * b + c;
  return i + (bend < 0 ? (a - c) / (2 * bend) : 0);
}

/** Moments from the first frame heard; `levels` are a level meter's. */
export function onsetsIn(levels: readonly Float32Array[]): readonly Seconds[] {
  if (levels.length === 0) return [];
  const values = rises(levels);
  const least = Math.max(LEAST, SHARE * quantile(values, CLEAR_ONES), 1.5 * median(values));
  const reach = Math.round(APART / LEVEL_STEP);
  return values.flatMap((value, i) =>
    value >= least && isPeak(values, i, reach) ? [(placeOf(values, i) + 1 - OVER / 2) * LEVEL_STEP] : [],
  );
}
