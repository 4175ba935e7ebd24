/** Note values as fractions of a whole note, their names, and how they are written down. */
import { type Ratio, format, multiply, ratio } from './ratio.ts';

/** How a length is written: a head, dots, and the tuplet it stands in. */
export interface NoteValue {
  /** 1 for a whole note, 2 a half, 4 a quarter ... */
  readonly head: number;
  readonly dots: number;
  /** `notes` in the time of `inTimeOf`; null outside tuplets. */
  readonly tuplet: { readonly notes: number; readonly inTimeOf: number } | null;
}

const DOTTED: readonly Ratio[] = [ratio(1), ratio(3, 2), ratio(7, 4)];
const HEADS = [1, 2, 4, 8, 16, 32, 64, 128];

/** The greatest power of two below: 3 in the time of 2, 5, 6 and 7 in the time of 4. */
export const inTimeOf = (notes: number): number => 2 ** Math.floor(Math.log2(notes - 1));

function plainValue(length: Ratio): NoteValue | null {
  for (const [dots, factor] of DOTTED.entries()) {
    const head = HEADS.find((one) => one * length.n * factor.d === length.d * factor.n);
    if (head !== undefined) return { head, dots, tuplet: null };
  }
  return null;
}

/**
 * How a single note of this length is written, or null where it takes two tied ones: `noteValueOf(ratio(1, 12))` is an
 * eighth of a triplet.
 */
export function noteValueOf(length: Ratio): NoteValue | null {
  const plain = plainValue(length);
  if (plain) return plain;
  for (const notes of [3, 5, 6, 7, 9, 11, 13]) {
    const within = inTimeOf(notes);
    const value = plainValue(multiply(length, ratio(notes, within)));
    if (value) return { ...value, tuplet: { notes, inTimeOf: within } };
  }
  return null;
}

const NAMES: Readonly<Record<number, string>> = {
  1: 'whole note',
  2: 'half',
  4: 'quarter',
  8: 'eighth',
  16: 'sixteenth',
  32: 'thirty-second',
  64: 'sixty-fourth',
};

/** `noteValueName(ratio(3, 8))` is 'a dotted quarter'; what has no name of its own is '5/16 of a whole note'. */
export function noteValueName(length: Ratio): string {
  const value = plainValue(length);
  const name = value && value.dots < 2 ? NAMES[value.head] : undefined;
  if (name === undefined) return `${format(length)} of a whole note`;
  const dotted = value?.dots === 1 ? `dotted ${name}` : name;
  return `${/^[aeiou]/u.test(dotted) ? 'an' : 'a'} ${dotted}`;
}
