/** Tongued notes in time: which onset belongs to which note, how early or late, and what drags. Experimental. */
import type { Seconds } from '../common/units.ts';
import type { ExpectedNote } from './expected-notes.ts';
import { deviation, mean, median } from './statistics.ts';

/** An onset belongs to a note when it is nearer than this share of the time to the next. */
const REACH = 0.4;
/** Fewer say nothing of evenness. */
const FEWEST = 6;

export interface Onset {
  readonly note: ExpectedNote;
  /** After its moment; negative is early. Null where none was heard. */
  readonly late: Seconds | null;
}

export interface Evenness {
  /** Tongued notes that were expected, and how many of them were heard. */
  readonly expected: number;
  readonly heard: number;
  /** Late on the whole, negative is early: from the moment that the exercise began. */
  readonly late: Seconds;
  /** Standard deviation of the single ones about that. */
  readonly spread: Seconds;
  /** The same as a share of the time from note to note. */
  readonly share: number;
  /** Mean for each place in the beat (0 on it, 0.5 half-way), against the mean of all. */
  readonly places: readonly { readonly place: number; readonly late: Seconds; readonly notes: number }[];
  /** Mean for each syllable that is spoken, against the mean of all. */
  readonly syllables: readonly { readonly syllable: string; readonly late: Seconds; readonly notes: number }[];
}

const nearest = (onsets: readonly Seconds[], at: Seconds): Seconds | null =>
  onsets.reduce<Seconds | null>(
    (best, one) => (best === null || Math.abs(one - at) < Math.abs(best - at) ? one : best),
    null,
  );

/** `start` is when the first beat of the exercise was. */
export function onsetsOfNotes(
  notes: readonly ExpectedNote[],
  onsets: readonly Seconds[],
  start: Seconds,
): readonly Onset[] {
  return notes
    .filter(({ tongued }) => tongued)
    .map((note, i, all) => {
      const gaps = [all[i + 1]?.from ?? note.to, all[i - 1]?.from ?? 2 * note.from - note.to];
      const reach = REACH * Math.min(...gaps.map((other) => Math.abs(other - note.from)));
      const found = nearest(onsets, note.from + start);
      const late = found === null ? null : found - note.from - start;
      return { note, late: late !== null && Math.abs(late) <= reach ? late : null };
    });
}

type Late = Onset & { readonly late: Seconds };

/** By what they have in common, in order of first coming. */
function meansBy<K>(
  heard: readonly Late[],
  middle: Seconds,
  keyOf: (one: Late) => K,
): readonly (readonly [K, Seconds, number])[] {
  const keys = [...new Set(heard.map(keyOf))];
  return keys.map((key) => {
    const own = heard.filter((one) => keyOf(one) === key).map(({ late }) => late);
    return [key, mean(own) - middle, own.length];
  });
}

/** Null where too few tongued notes were heard. */
export function evennessOf(all: readonly Onset[]): Evenness | null {
  const heard = all.filter((one): one is Late => one.late !== null);
  if (heard.length < FEWEST) return null;
  const late = heard.map((one) => one.late);
  const middle = mean(late);
  const steps = all.flatMap(({ note }, i) => (i > 0 ? [note.from - (all[i - 1] as Onset).note.from] : []));
  const spoken = heard.filter(({ note }) => note.syllable !== '');
  return {
    expected: all.length,
    heard: heard.length,
    late: middle,
    spread: deviation(late),
    share: deviation(late) / median(steps),
    places: meansBy(heard, middle, ({ note }) => note.place).map(([place, by, notes]) => ({ place, late: by, notes })),
    syllables: meansBy(spoken, middle, ({ note }) => note.syllable).map(([syllable, by, notes]) => ({
      syllable,
      late: by,
      notes,
    })),
  };
}
