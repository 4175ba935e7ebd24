/** Intervals by their names ('3m' is a minor third), and notes with fewer signs: arithmetic on the line of fifths. */
import { fifthsOf, tonicAt } from './keys.ts';
import { midiOf, pitchNamed, withoutOctave } from './note-names.ts';

const LETTERS = 'CDEFGAB';

/** Fifths from a note to the perfect or major interval above it, from the prime to the seventh. */
const FIFTHS: readonly number[] = [0, 2, 4, -1, 1, 3, 5];

/** How many fifths a quality takes off: seven lower a note by a semitone and keep its letter. */
function lowering(quality: string, isPerfect: boolean): number {
  if (quality === 'A') return -7;
  if (quality === 'd') return isPerfect ? 7 : 14;
  return quality === 'm' ? 7 : 0;
}

/** `fifthsIn('3m')` is -3: from C three fifths down to E flat. */
function fifthsIn(interval: string): number {
  const step = Number(interval[0]) - 1;
  return (FIFTHS[step] ?? 0) - lowering(interval.charAt(1), [0, 3, 4].includes(step));
}

/** The note an interval of less than an octave above another: `above('Bb4', '2M')` is 'C5'. */
export function above(note: string, interval: string): string {
  const from = withoutOctave(note);
  const name = tonicAt(fifthsOf(from) + fifthsIn(interval));
  const isNextOctave = LETTERS.indexOf(name.charAt(0)) < LETTERS.indexOf(from.charAt(0));
  return `${name}${pitchNamed(note).octave + (isNextOctave ? 1 : 0)}`;
}

/** The ends of the line of fifths between which each of the twelve keys has one name: F to A#, or Gb to B. */
const FIRST_WITH_SHARPS = -1;
const FIRST_WITH_FLATS = -6;

/** The same key by a white key's name, or with one sign of the same kind: 'E#4' is 'F4', 'B##3' is 'C#4'. */
export function simplest(note: string): string {
  const fifths = fifthsOf(withoutOctave(note));
  const first = pitchNamed(note).alter > 0 ? FIRST_WITH_SHARPS : FIRST_WITH_FLATS;
  const upTo = (((fifths - first) % 12) + 12) % 12;
  return `${tonicAt(first + upTo)}${Math.floor(midiOf(note) / 12) - 1}`;
}
