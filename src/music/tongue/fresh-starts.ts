/**
 * The stretches over which a way of tonguing runs before it begins afresh: beats, or groups where a beat holds too few
 * notes.
 */
import { type Meter, barLength, beatsOfBar } from '../time/meter.ts';
import type { Passage, PassageNote } from '../pattern/passage.ts';
import { type Ratio, ZERO, add, compare, divide, multiply, ratio, toNumber } from '../time/ratio.ts';

export interface Stretch {
  /** From the passage's start, or from the bar line where it is one of a bar's. */
  readonly at: Ratio;
  readonly length: Ratio;
}

function groupsOf(meter: Meter): readonly Stretch[] {
  let at = ZERO;
  return meter.groups.map((units) => {
    const group = { at, length: ratio(units, meter.unit) };
    at = add(at, group.length);
    return group;
  });
}

/** The shortest note of the passage, or the whole bar. */
function shortest(passage: Passage): Ratio {
  const bar = barLength(passage.meter);
  return passage.notes.reduce(
    (least, note) => (note.pitch && compare(note.length, least) < 0 ? note.length : least),
    bar,
  );
}

/** How many of its shortest notes fill a stretch. */
const fill = (stretch: Stretch, note: Ratio): number => toNumber(divide(stretch.length, note));

/**
 * The stretches of each bar. A beat that holds fewer notes than `least` (two for double tonguing, three for
 * triple) gives way to the meter's groups: eighths in 7/8 run as 2+2+3, quarters in 4/4 over the bar.
 */
export function stretchesOf(passage: Passage, least: number): readonly Stretch[] {
  const note = shortest(passage);
  const beats: readonly Stretch[] = beatsOfBar(passage.meter, passage.beat);
  const inBar = beats.every((beat) => fill(beat, note) >= least) ? beats : groupsOf(passage.meter);
  const bar = barLength(passage.meter);
  return Array.from({ length: passage.bars }, (_, k) =>
    inBar.map(({ at, length }) => ({ at: add(multiply(bar, ratio(k)), at), length })),
  ).flat();
}

/** The index of the stretch in which each note begins. */
export function stretchOfEach(notes: readonly PassageNote[], stretches: readonly Stretch[]): readonly number[] {
  let stretch = 0;
  return notes.map((note) => {
    while (stretch + 1 < stretches.length && compare(stretches[stretch + 1]?.at ?? note.at, note.at) <= 0) stretch += 1;
    return stretch;
  });
}

export const stretchEnd = (stretch: Stretch): Ratio => add(stretch.at, stretch.length);
