/**
 * Where each note stands within its stretch and since the last fresh start: what the strokes of the tongue are counted
 * by.
 */
import type { Passage, PassageNote } from '../pattern/passage.ts';
import { type Stretch, stretchEnd, stretchOfEach } from './fresh-starts.ts';
import { type Ratio, ZERO, add, compare, divide, subtract } from '../time/ratio.ts';

export interface CountedNote {
  readonly note: PassageNote;
  /** Sounds for its whole stretch or longer, its ties with it. */
  readonly long: boolean;
  /** Notes begun since the last fresh start, and since the bar line; both count from 0. */
  readonly sinceStart: number;
  readonly sinceBar: number;
  /** The same since a fresh start, a bar line, or a stretch that holds a whole number of cycles. */
  readonly inCycle: number;
  /** Which of the stretch's equal parts it begins, and how many there are; index and count where it begins none. */
  readonly slot: number;
  readonly slots: number;
  /** Everything begins afresh here: the first note, or one after a rest (or, where asked for, after a long note). */
  readonly fresh: boolean;
}

const begins = (note: PassageNote): boolean => note.pitch !== null && !note.tiedFrom;

/** How long each note sounds, ties with it. */
function soundings(notes: readonly PassageNote[]): readonly Ratio[] {
  const lengths: Ratio[] = [];
  for (let i = notes.length - 1; i >= 0; i -= 1) {
    const note = notes[i];
    if (note) lengths[i] = note.tiedTo ? add(note.length, lengths[i + 1] ?? ZERO) : note.length;
  }
  return lengths;
}

/** The shortest note begun in each stretch: the length of its equal parts. */
function partsOf(
  notes: readonly PassageNote[],
  of: readonly number[],
  stretches: readonly Stretch[],
): readonly Ratio[] {
  const parts = stretches.map((stretch) => stretch.length);
  notes.forEach((note, i) => {
    const stretch = of[i] ?? 0;
    if (begins(note) && compare(note.length, parts[stretch] ?? ZERO) < 0) parts[stretch] = note.length;
  });
  return parts;
}

/** Where a stretch of counting began, and what has been counted since. */
interface Count {
  stretch: number;
  from: Ratio;
  fresh: boolean;
  sinceStart: number;
  sinceBar: number;
  inCycle: number;
  bar: number;
  index: number;
}

const START: Count = {
  stretch: -1,
  from: ZERO,
  fresh: true,
  sinceStart: 0,
  sinceBar: 0,
  inCycle: 0,
  bar: -1,
  index: 0,
};

/** Counting goes on, but not over a fresh start, a bar line or a new stretch. */
function counted(count: Count, note: PassageNote, stretch: number, stretchStart: Ratio, cycles: boolean): Count {
  const newBar = note.bar !== count.bar;
  const anew = count.fresh || count.stretch !== stretch;
  return {
    ...count,
    stretch,
    bar: note.bar,
    from: count.fresh ? note.at : anew ? stretchStart : count.from,
    index: anew ? 0 : count.index + 1,
    sinceStart: count.fresh ? 0 : count.sinceStart + 1,
    sinceBar: newBar ? 0 : count.sinceBar + 1,
    inCycle: count.fresh || newBar || (anew && cycles) ? 0 : count.inCycle + 1,
  };
}

function slotOf(note: PassageNote, from: Ratio, end: Ratio, part: Ratio): Pick<CountedNote, 'slot' | 'slots'> | null {
  const slot = divide(subtract(note.at, from), part);
  const slots = divide(subtract(end, from), part);
  return slot.d === 1 && slots.d === 1 ? { slot: slot.n, slots: slots.n } : null;
}

interface Counting {
  /** A long note too is followed by a fresh start. */
  readonly afterLong: boolean;
  /** Notes in the cycle of a mixed pattern; 1 where there is none. */
  readonly cycle: number;
}

/** The places of all notes; null for rests and held notes. */
export function countNotes(
  passage: Passage,
  stretches: readonly Stretch[],
  { afterLong, cycle }: Counting,
): readonly (CountedNote | null)[] {
  const { notes } = passage;
  const of = stretchOfEach(notes, stretches);
  const parts = partsOf(notes, of, stretches);
  const sounds = soundings(notes);
  const begun = stretches.map(() => 0);
  notes.forEach((note, i) => (begun[of[i] ?? 0] = (begun[of[i] ?? 0] ?? 0) + (begins(note) ? 1 : 0)));
  let count = START;
  return notes.map((note, i) => {
    const at = of[i] ?? 0;
    const stretch = stretches[at];
    if (!note.pitch) count = { ...count, fresh: true };
    if (!begins(note) || !stretch) return null;
    const inStretch = begun[at] ?? 1;
    count = counted(count, note, at, stretch.at, inStretch % cycle === 0);
    const { fresh, index, sinceStart, sinceBar, inCycle, from } = count;
    const long = compare(sounds[i] ?? ZERO, stretch.length) >= 0;
    const slot = slotOf(note, from, stretchEnd(stretch), parts[at] ?? stretch.length) ?? {
      slot: index,
      slots: inStretch,
    };
    count = { ...count, fresh: afterLong && long };
    return { note, long, fresh, sinceStart, sinceBar, inCycle, ...slot };
  });
}
