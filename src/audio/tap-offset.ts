/** From taps to the one offset that makes the picture meet the player's ear. */
import type { Milliseconds } from '../common/units.ts';

export interface TapResult {
  /** How long after the moment that was assumed the player taps; positive is late. */
  readonly offset: Milliseconds;
  /** Half the middle half of the taps' spread: how sure the offset is. */
  readonly spread: Milliseconds;
  /** Taps that counted. */
  readonly used: number;
}

/** Fewer taps than this say nothing. */
const FEWEST_TAPS = 8;
/** Further from a beat than this, a tap was meant for none, and the largest offset that is believed. */
const FURTHEST: Milliseconds = 300;
/** The first taps find the beat. */
const WARM_UP = 2;

const quantile = (sorted: readonly number[], q: number): number => {
  const at = (sorted.length - 1) * q;
  const low = sorted[Math.floor(at)] ?? 0;
  return low + ((sorted[Math.ceil(at)] ?? low) - low) * (at - Math.floor(at));
};

/** For each tap, how far it lies from the nearest beat. */
function distances(taps: readonly Milliseconds[], beats: readonly Milliseconds[]): readonly Milliseconds[] {
  return taps.flatMap((tap) => {
    const nearest = beats.reduce((best, beat) => (Math.abs(tap - beat) < Math.abs(tap - best) ? beat : best), Infinity);
    return Math.abs(tap - nearest) <= FURTHEST ? [tap - nearest] : [];
  });
}

/**
 * The offset from taps and the beats they were meant for, on one clock. The median: a slip or a
 * doubled tap does not move it. Returns null where there are too few taps, or where they scatter so much
 * that they follow no beat.
 */
export function offsetFromTaps(taps: readonly Milliseconds[], beats: readonly Milliseconds[]): TapResult | null {
  const late = [...distances(taps.slice(WARM_UP), beats)].sort((a, b) => a - b);
  if (late.length < FEWEST_TAPS) return null;
  const spread = (quantile(late, 0.75) - quantile(late, 0.25)) / 2;
  if (spread > 60) return null;
  return { offset: Math.round(quantile(late, 0.5)), spread: Math.round(spread), used: late.length };
}
