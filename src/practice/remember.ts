/** How the history of a line grows with each mark of this sitting. */
import { type LineHistory, NO_MARKS, withMark } from '../ladder/history.ts';
import type { Done, Practice } from './practice.ts';

const NEW: Omit<LineHistory, 'climb'> = { bestDay: null, lastDay: null, counts: NO_MARKS, byRung: {} };

function counted(history: LineHistory, { mark, bpm }: Done): LineHistory {
  if (mark === null) return history;
  const rung = `${bpm}`;
  return {
    ...history,
    counts: withMark(history.counts, mark),
    byRung: { ...history.byRung, [rung]: withMark(history.byRung[rung] ?? NO_MARKS, mark) },
  };
}

/** The history with the last thing done in `practice` added. */
export function historyAfter(history: LineHistory | null, practice: Practice, day: string): LineHistory {
  const known = history ?? { ...NEW, climb: practice.climb };
  const held = practice.climb.best !== (history?.climb.best ?? null);
  const moved = { ...known, climb: practice.climb, bestDay: held ? day : known.bestDay, lastDay: day };
  const done = practice.done.at(-1);
  return done ? counted(moved, done) : moved;
}
