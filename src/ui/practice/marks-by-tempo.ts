/** The signs beside each tempo of the ladder: which marks, and in which order they stand. */
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import { type LineHistory, type MarkCounts, NO_MARKS } from '../../ladder/speed/line-history.ts';
import type { Bpm } from '../../common/units.ts';
import type { Practice } from '../../practice/line/line-on-stand.ts';

const MARKS: readonly Mark[] = ['clean', 'tense', 'missed'];

/** This sitting's marks at a tempo, oldest first. */
const sittingMarks = ({ kept }: Practice, bpm: Bpm): readonly Mark[] =>
  kept.flatMap((entry) => (entry.kind === 'mark' && entry.bpm === bpm ? [entry.mark] : []));

/** The tempos that this sitting's marks were made at. */
const tempos = ({ kept }: Practice): readonly Bpm[] =>
  kept.flatMap((entry) => (entry.kind === 'mark' ? [entry.bpm] : []));

/** So many of each mark, less those that are known in their order. */
const others = (counts: MarkCounts, known: readonly Mark[]): readonly Mark[] =>
  MARKS.flatMap((mark) =>
    Array.from({ length: Math.max(0, counts[mark] - known.filter((one) => one === mark).length) }, () => mark),
  );

/** Today's marks by tempo: those of earlier sittings first, whose order is not known, then this one's. */
export function marksToday(
  practice: Practice,
  history: LineHistory | null,
  today: string,
): ReadonlyMap<Bpm, readonly Mark[]> {
  const tallies = new Map(
    (history?.tallies ?? []).filter(({ day }) => day === today).map((tally) => [tally.bpm, tally]),
  );
  const all = new Set([...tallies.keys(), ...tempos(practice)]);
  return new Map(
    [...all].map((bpm) => {
      const sitting = sittingMarks(practice, bpm);
      return [bpm, [...others(tallies.get(bpm) ?? NO_MARKS, sitting), ...sitting]] as const;
    }),
  );
}
