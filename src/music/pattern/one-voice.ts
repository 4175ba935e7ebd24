/**
 * In which octave each key of an exercise stands: chosen for all its keys together, so that neighbours keep to one
 * voice, and the same whatever was played before.
 */
import { type Range, fewestOctaves, semitonesOutside } from '../pitch/range.ts';
import { middleOf } from '../pitch/registers.ts';
import type { MidiNote, Semitones } from '../../common/units.ts';

/** How the notes lie in one key with the tonic in its fourth octave; written. */
export interface KeySpan extends Range {
  readonly first: MidiNote;
  /** What is to lie at ease: all the notes, or the tonic's octave where octave marks say what lies around it. */
  readonly heart: Range;
}

export interface VoiceWish {
  /** No note leaves it. */
  readonly full: Range;
  /** Where the notes are to lie: the easy range, or the register that was asked for. */
  readonly ease: Range;
  /** The first key's first note is this one or the next above; null where nobody said. */
  readonly from: MidiNote | null;
  /** Every key may follow every other, where they are drawn; else each follows the one before it. */
  readonly drawn: boolean;
}

/** Octaves to move each key's notes by; null for a key that fits in none. */
type Octaves = readonly (number | null)[];

/** The circle of fifths does not close with smaller steps between neighbours. */
const FIFTH: Semitones = 7;

/** Whether two neighbours stand so far apart that an octave's shift would bring them nearer. */
export const isJump = (lowest: MidiNote, next: MidiNote): boolean => Math.abs(next - lowest) > FIFTH;

const moved = ({ low, high }: Range, octaves: number): Range => ({
  low: low + 12 * octaves,
  high: high + 12 * octaves,
});

/** All lowest notes within one octave from `base` up, but for those that the range pushes out of it. */
const withinOctave = (spans: readonly KeySpan[], base: MidiNote, full: Range): Octaves =>
  spans.map((span) => {
    const wanted = Math.ceil((base - span.low) / 12);
    const { low, high } = moved(span, wanted);
    const further = fewestOctaves(full, [low, high]);
    return further === null ? null : wanted + further;
  });

/** Each key and the one that follows it. Inside a round a jump weighs more than from its end to its beginning. */
function jumpsInOrder(lows: readonly MidiNote[]): number {
  const weigh = (low: MidiNote, i: number): number =>
    isJump(low, lows[i + 1] ?? lows[0] ?? low) ? (i + 1 < lows.length ? 2 : 1) : 0;
  return lows.reduce((sum, low, i) => sum + weigh(low, i), 0);
}

const jumpsAnywhere = (lows: readonly MidiNote[]): number =>
  lows.reduce((sum, low, i) => sum + lows.slice(i + 1).filter((other) => isJump(low, other)).length, 0);

/** Jumps, keys that do not lie at ease, and how far all of them lie from the middle: each counts before the next. */
function cost(spans: readonly KeySpan[], octaves: Octaves, { ease, drawn }: VoiceWish): readonly number[] {
  const there = spans.flatMap(({ low, heart }, i) => {
    const octave = octaves[i] ?? null;
    return octave === null ? [] : [{ low: low + 12 * octave, heart: moved(heart, octave) }];
  });
  const [lows, hearts] = [there.map(({ low }) => low), there.map(({ heart }) => heart)];
  const isOutside = ({ low, high }: Range): boolean => semitonesOutside(ease, low) + semitonesOutside(ease, high) > 0;
  return [
    (drawn ? jumpsAnywhere : jumpsInOrder)(lows),
    hearts.filter(isOutside).length,
    hearts.reduce((sum, heart) => sum + Math.abs(middleOf(heart) - middleOf(ease)), 0),
  ];
}

function isLess(one: readonly number[], other: readonly number[]): boolean {
  const at = one.findIndex((part, i) => part !== other[i]);
  return at >= 0 && (one[at] ?? 0) < (other[at] ?? 0);
}

/** The octave in which the first key begins at or above a note, if the notes then lie in the range. */
function octaveFrom([first]: readonly KeySpan[], { from, full }: VoiceWish): number | null {
  if (from === null || first === undefined) return null;
  const octave = Math.ceil((from - first.first) / 12);
  const { low, high } = moved(first, octave);
  return semitonesOutside(full, low) + semitonesOutside(full, high) === 0 ? octave : null;
}

/** By how many octaves to move each key's notes; of two ways equally good, the lower. */
export function octavesTogether(spans: readonly KeySpan[], wish: VoiceWish): Octaves {
  const begins = octaveFrom(spans, wish);
  let best: { octaves: Octaves; cost: readonly number[] } | null = null;
  for (let base = wish.full.low - 12; base <= wish.full.high; base += 1) {
    const octaves = withinOctave(spans, base, wish.full);
    if (begins !== null && octaves[0] !== begins) continue;
    const itsCost = cost(spans, octaves, wish);
    if (best === null || isLess(itsCost, best.cost)) best = { octaves, cost: itsCost };
  }
  return best?.octaves ?? spans.map(() => null);
}
