/**
 * The quickest two notes of a dotted figure are tongued with two different strokes: the front of the tongue cannot
 * strike twice in the time of the short note.
 */
import type { Stretch } from './fresh-starts.ts';
import { type CountedNote } from './stroke-counting.ts';
import { type Ratio, compare, subtract } from '../time/ratio.ts';

/** 'under': within a slur, no stroke of its own; 'held': tied to the note before. */
export type TongueStroke = 'front' | 'back' | 'under' | 'held' | 'rest';

/** A note that is begun, with its place among all notes and the time until the next one is begun. */
interface Begun {
  readonly index: number;
  readonly stretch: number;
  readonly counted: CountedNote;
  /** Null before a rest, and for the last. */
  readonly gap: Ratio | null;
}

function begunNotes(counted: readonly (CountedNote | null)[], stretches: readonly Stretch[]): readonly Begun[] {
  const found = counted.flatMap((one, index) => (one ? [{ index, counted: one }] : []));
  return found.map(({ index, counted: one }, i) => {
    const next = found[i + 1]?.counted;
    const stretch = stretches.findLastIndex(({ at }) => compare(at, one.note.at) <= 0);
    return { index, stretch, counted: one, gap: next && !next.fresh ? subtract(next.note.at, one.note.at) : null };
  });
}

const isShorter = (a: Ratio | null, b: Ratio | null): boolean => a !== null && (b === null || compare(a, b) < 0);

/** Whether the next note follows as quickly as any in this one's stretch, and the stretch has slower ones too. */
function isQuick(one: Begun, notes: readonly Begun[]): boolean {
  const gaps = notes.flatMap(({ stretch, gap }) => (stretch === one.stretch && gap !== null ? [gap] : []));
  const isUneven = gaps.some((gap) => isShorter(one.gap, gap));
  return one.gap !== null && isUneven && !gaps.some((gap) => isShorter(gap, one.gap));
}

const opposite = (stroke: TongueStroke): TongueStroke => (stroke === 'back' ? 'front' : 'back');

/**
 * The strokes with those of quick pairs told apart. Where the second note of a pair begins a stretch, it keeps the
 * front stroke and the one before it changes; elsewhere the second changes. A slower note beside it that would then
 * have the same back stroke takes the front one.
 */
export function quickPairsApart(
  strokes: readonly TongueStroke[],
  counted: readonly (CountedNote | null)[],
  stretches: readonly Stretch[],
): readonly TongueStroke[] {
  const notes = begunNotes(counted, stretches);
  const settled = [...strokes];
  notes.forEach((one, i) => {
    const next = notes[i + 1];
    if (!next || !isQuick(one, notes) || settled[one.index] !== settled[next.index]) return;
    const changes = next.stretch === one.stretch ? next : one;
    const beside = next.stretch === one.stretch ? notes[i + 2] : notes[i - 1];
    settled[changes.index] = opposite(settled[changes.index] ?? 'front');
    const isTwice = beside && settled[changes.index] === 'back' && settled[beside.index] === 'back';
    if (isTwice) settled[beside.index] = 'front';
  });
  return settled;
}
