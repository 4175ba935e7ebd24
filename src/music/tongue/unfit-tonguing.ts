/** Multiple tonguing that does not go into the notes it is asked for: worth a word to the player, and no error. */
import type { Articulation, Tonguing } from './articulation.ts';
import type { Passage } from '../pattern/passage.ts';
import { countNotes } from './stroke-counting.ts';
import { stretchesOf } from './fresh-starts.ts';
import { LEAST_NOTES, tripleGroups } from './tongue-strokes.ts';

const IN: Readonly<Record<number, string>> = {
  2: 'twos',
  3: 'threes',
  4: 'fours',
  5: 'fives',
  7: 'sevens',
};

/** How many quick notes stand together, for each that is begun. */
function together(passage: Passage, tonguing: Tonguing): readonly number[] {
  const notes = countNotes(passage, stretchesOf(passage, LEAST_NOTES[tonguing.kind]), { afterLong: true, cycle: 1 });
  return notes.flatMap((note) => (note && !note.long && note.slots > 1 ? [note.slots] : []));
}

const strokes = (notes: number): string => Array.from({ length: notes }, (_, i) => (i % 2 === 0 ? 'T' : 'K')).join('');

/**
 * One sentence where none of the notes stand in threes for triple tonguing, or none in an even number for
 * double; else null. Triple on four notes a beat is TKTK, double on three is TKT: common practice, no source.
 */
export function unfitTonguing(passage: Passage, { tonguing }: Articulation): string | null {
  if (tonguing.kind !== 'double' && tonguing.kind !== 'triple') return null;
  const counts = together(passage, tonguing);
  const [first] = counts;
  const fits = (notes: number): boolean =>
    tonguing.kind === 'double' ? notes % 2 === 0 : tripleGroups(notes).includes(3);
  if (first === undefined || counts.some(fits)) return null;
  const stand = `The quick notes stand in ${IN[first] ?? `groups of ${first}`}`;
  return tonguing.kind === 'triple'
    ? `${stand}, where triple has no three to tongue: it comes out as ${strokes(first)}, which is double.`
    : `${stand}, so double begins anew on each group as ${strokes(first)}; triple or double over triplets would ` +
        `run through.`;
}
