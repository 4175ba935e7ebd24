/** Which stroke of the tongue begins each note of a passage, or which slur it stands under. */
import { type Articulation, type Segment, type Tonguing, cycleLength } from './articulation.ts';
import type { Passage, PassageNote } from '../pattern/passage.ts';
import { type CountedNote, countNotes } from './stroke-counting.ts';
import { stretchesOf } from './fresh-starts.ts';
import { type TongueStroke, quickPairsApart } from './quickest-pair.ts';
import type { Syllables } from './syllables.ts';

export type { TongueStroke } from './quickest-pair.ts';

/** Notes that a stretch must hold for each way of tonguing to begin afresh there. */
export const LEAST_NOTES: Readonly<Record<Tonguing['kind'], number>> = {
  slurred: 1,
  single: 1,
  back: 1,
  double: 2,
  triple: 3,
  running: 2,
  mixed: 1,
};

const DOUBLE: readonly TongueStroke[] = ['front', 'back'];

/** Threes first; what is left over goes in twos: 4 is TK TK, 5 is TTK TK, 7 is TTK TK TK. */
export function tripleGroups(slots: number): readonly number[] {
  const twos = slots % 3 === 0 ? 0 : slots % 3 === 2 ? 1 : slots >= 4 ? 2 : 0;
  const threes = Math.floor((slots - 2 * twos) / 3);
  const rest = slots - 3 * threes - 2 * twos;
  return [
    ...Array.from({ length: threes }, () => 3),
    ...Array.from({ length: twos }, () => 2),
    ...(rest > 0 ? [rest] : []),
  ];
}

function inTriple(slots: number, slot: number, order: 'TTK' | 'TKT'): TongueStroke {
  let left = slot;
  for (const group of tripleGroups(slots)) {
    if (left < group) return tripleStroke(group, left, order);
    left -= group;
  }
  return 'front';
}

function tripleStroke(group: number, slot: number, order: 'TTK' | 'TKT'): TongueStroke {
  if (group === 3) return order[slot] === 'K' ? 'back' : 'front';
  return slot === 1 ? 'back' : 'front';
}

function inCycle(segments: readonly Segment[], index: number): TongueStroke {
  let left = index % cycleLength(segments);
  for (const { how, notes } of segments) {
    if (left < notes) {
      if (how === 'slur') return left === 0 ? 'front' : 'under';
      if (how === 'double') return DOUBLE[left % 2] ?? 'front';
      return how === 'back' ? 'back' : 'front';
    }
    left -= notes;
  }
  return 'front';
}

function strokeAt(tonguing: Tonguing, counted: CountedNote): TongueStroke {
  switch (tonguing.kind) {
    case 'slurred':
      return counted.fresh ? 'front' : 'under';
    case 'single':
      return 'front';
    case 'back':
      return 'back';
    case 'double':
      return DOUBLE[counted.slot % 2] ?? 'front';
    case 'triple':
      return inTriple(counted.slots, counted.slot, tonguing.order);
    case 'running':
      return (
        DOUBLE[(tonguing.anew ? Math.min(counted.sinceBar, counted.sinceStart) : counted.sinceStart) % 2] ?? 'front'
      );
    case 'mixed':
      return inCycle(tonguing.segments, counted.inCycle);
  }
}

/**
 * Long notes are begun with the front syllable; nothing is slurred to its own pitch, and no back stroke follows
 * another unless asked for.
 */
function settled(
  wanted: TongueStroke,
  counted: CountedNote,
  before: { stroke: TongueStroke; note: PassageNote } | null,
  tonguing: Tonguing,
): TongueStroke {
  if (wanted === 'under')
    return before === null || before.note.pitch?.written === counted.note.pitch?.written ? 'front' : 'under';
  const twice = wanted === 'back' && before?.stroke === 'back' && !counted.fresh;
  return twice && tonguing.kind !== 'back' && tonguing.kind !== 'mixed' ? 'front' : wanted;
}

/** One stroke for each note of the passage. */
export function tongueStrokes(passage: Passage, articulation: Articulation): readonly TongueStroke[] {
  const { tonguing } = articulation;
  const stretches = stretchesOf(passage, LEAST_NOTES[tonguing.kind]);
  const cycle = tonguing.kind === 'mixed' ? cycleLength(tonguing.segments) : 1;
  const afterLong = tonguing.kind === 'double' || tonguing.kind === 'triple' || tonguing.kind === 'running';
  let before: { stroke: TongueStroke; note: PassageNote } | null = null;
  const notes = countNotes(passage, stretches, { afterLong, cycle });
  const strokes = notes.map((counted, i) => {
    if (!counted) return passage.notes[i]?.pitch ? 'held' : 'rest';
    const free = tonguing.kind === 'slurred' || tonguing.kind === 'back' || tonguing.kind === 'mixed';
    const wanted = !free && counted.long ? 'front' : strokeAt(tonguing, counted);
    const stroke = settled(wanted, counted, before, tonguing);
    before = { stroke, note: counted.note };
    return stroke;
  });
  return tonguing.kind === 'triple' ? quickPairsApart(strokes, notes, stretches) : strokes;
}

/** What is spoken on each note; '' under a slur, on held notes and in rests. */
export const spoken = (strokes: readonly TongueStroke[], syllables: Syllables): readonly string[] =>
  strokes.map((stroke) => (stroke === 'front' ? syllables.front : stroke === 'back' ? syllables.back : ''));

/** The slurs as pairs of indices, first and last note of each; the ties of both lie under it. */
export function slursOf(strokes: readonly TongueStroke[]): readonly (readonly [number, number])[] {
  const slurs: [number, number][] = [];
  let first: number | null = null;
  strokes.forEach((stroke, i) => {
    if (stroke === 'under') first ??= strokes.slice(0, i).findLastIndex((before) => before !== 'held');
    const goesOn = strokes[i + 1] === 'under' || strokes[i + 1] === 'held';
    if (first !== null && !goesOn) {
      slurs.push([first, i]);
      first = null;
    }
  });
  return slurs;
}
