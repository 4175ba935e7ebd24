/** Even notes turned into long and short ones: dotted pairs, threes as long-short-short. */
import { type Passage, type PassageNote, beatIn } from '../pattern/passage.ts';
import { stretchOfEach, stretchesOf } from './fresh-starts.ts';
import { barLength } from '../time/meter.ts';
import { type Ratio, add, compare, multiply, ratio, subtract } from '../time/ratio.ts';

const PAIR: readonly Ratio[] = [ratio(3, 2), ratio(1, 2)];
const THREE: readonly Ratio[] = [ratio(3, 2), ratio(3, 4), ratio(3, 4)];

/** 'short-long' turns the figures round. */
type Uneven = 'long-short' | 'short-long';

/** Only plain notes of one length, in whole pairs or threes, can be turned. */
function figureFor(group: readonly PassageNote[]): readonly Ratio[] | null {
  const [first] = group;
  const even = group.every(
    (note) => note.pitch && !note.tiedFrom && !note.tiedTo && first && compare(note.length, first.length) === 0,
  );
  if (!even) return null;
  if (group.length % 3 === 0) return THREE;
  return group.length % 2 === 0 ? PAIR : null;
}

/** The note at its new place. */
function movedTo(passage: Passage, note: PassageNote, at: Ratio, length: Ratio): PassageNote {
  const bar = multiply(barLength(passage.meter), ratio(note.bar));
  return { ...note, at, length, ...beatIn(passage, subtract(at, bar)) };
}

function turned(group: readonly PassageNote[], passage: Passage, rhythm: Uneven): readonly PassageNote[] {
  const longFirst = figureFor(group);
  if (!longFirst) return group;
  const figure = rhythm === 'long-short' ? longFirst : longFirst.toReversed();
  let at = group[0]?.at ?? ratio(0);
  return group.map((note, i) => {
    const length = multiply(note.length, figure[i % figure.length] ?? ratio(1));
    const moved = movedTo(passage, note, at, length);
    at = add(at, length);
    return moved;
  });
}

/**
 * The passage in long-short rhythm, stretch by stretch; what is not even stays as it is. Sixteenths become
 * dotted sixteenths and thirty-seconds, triplet eighths an eighth and two sixteenths; onsets still tile each bar.
 */
export function unevenly(passage: Passage, rhythm: Uneven): Passage {
  const of = stretchOfEach(passage.notes, stretchesOf(passage, 2));
  const groups: PassageNote[][] = [];
  passage.notes.forEach((note, i) => (groups[of[i] ?? 0] ??= []).push(note));
  const notes = groups.flatMap((group) => turned(group, passage, rhythm));
  return { ...passage, notes };
}
