/** What may be said of a line's speed: nothing before it is known, and no number far outside what was played. */
import type { Bpm } from '../../common/units.ts';
import { type LineEstimate, isSure } from './speed-knowledge.ts';

/** Up to so much beyond the tempos played a number may be said: two rungs of 3 %. */
const BEYOND = 1.06;
/** Marks of the line itself before it may be said to lie beyond what was played: fewer are other lines' opinion. */
const ENOUGH = 10;

export type SafeTempo =
  | { readonly known: 'too little' }
  /** Above the fastest tempo played, or below the slowest: how far, nobody knows. */
  | { readonly known: 'above' | 'below'; readonly bpm: Bpm }
  /** An end of the interval that lies far outside is null. */
  | { readonly known: 'near'; readonly bpm: Bpm; readonly low: Bpm | null; readonly high: Bpm | null };

const unlessFar = (bpm: Bpm, isFar: boolean): Bpm | null => (isFar ? null : bpm);

/**
 * Whatever is sure: that the tempo of nine in ten lies beyond all that was played, or else about where, once the
 * interval is narrow enough.
 */
export function safeTempo(estimate: LineEstimate): SafeTempo {
  const { bpm, low, high, played, marks } = estimate;
  if (played === null) return { known: 'too little' };
  if (marks >= ENOUGH && low > played.high) return { known: 'above', bpm: played.high };
  if (marks >= ENOUGH && high < played.low) return { known: 'below', bpm: played.low };
  if (!isSure(estimate)) return { known: 'too little' };
  const [least, most] = [played.low / BEYOND, played.high * BEYOND];
  if (bpm > most) return { known: 'above', bpm: played.high };
  if (bpm < least) return { known: 'below', bpm: played.low };
  return { known: 'near', bpm, low: unlessFar(low, low < least), high: unlessFar(high, high > most) };
}

const counted = (marks: number): string => (marks === 1 ? '1 mark' : `${marks} marks`);

/** ' (between 92 and 104)', or what of it may be said. */
function between(low: string | null, high: string | null): string {
  if (low !== null && high !== null) return ` (between ${low} and ${high})`;
  if (low !== null) return ` (${low} or more)`;
  return high === null ? '' : ` (${high} or less)`;
}

/**
 * The sentence for the player, tempos written by `shown`: 'Safe at 96 (between 92 and 104)', 'Safe tempo above 236',
 * 'still finding out (7 marks)'.
 */
export function safeTempoText(estimate: LineEstimate, shown: (bpm: Bpm) => string): string {
  const safe = safeTempo(estimate);
  if (safe.known === 'too little') return `still finding out (${counted(estimate.marks)})`;
  if (safe.known !== 'near') return `Safe tempo ${safe.known} ${shown(safe.bpm)}`;
  const [low, high] = [safe.low, safe.high].map((bpm) => (bpm === null ? null : shown(bpm)));
  return `Safe at ${shown(safe.bpm)}${between(low ?? null, high ?? null)}`;
}
