/** Between the journal and the stand: what was kept becomes what is known, what happens becomes an entry. */
import { type Fold, type LineState, climbOf, marksByRung } from '../journal/fold.ts';
import { type LineHistory, type MarkCounts, NO_MARKS } from '../ladder/history.ts';
import type { Draft } from '../practice/practice.ts';
import type { Happening } from './player-data.ts';

const sum = (a: MarkCounts, b: MarkCounts): MarkCounts => ({
  clean: a.clean + b.clean,
  tense: a.tense + b.tense,
  missed: a.missed + b.missed,
});

function historyOf(state: LineState): LineHistory {
  const byRung = Object.fromEntries([...marksByRung(state)].map(([bpm, counts]) => [`${bpm}`, counts]));
  return {
    climb: climbOf(state),
    bestDay: state.best?.day ?? null,
    lastDay: state.lastDay === '' ? null : state.lastDay,
    counts: state.tallies.reduce<MarkCounts>(sum, NO_MARKS),
    byRung,
  };
}

/** Every line the journal knows, by its id. */
export const knownLines = ({ lines }: Fold): Readonly<Record<string, LineHistory>> =>
  Object.fromEntries([...lines].map(([id, state]) => [id, historyOf(state)]));

export function happeningOf(draft: Draft): Happening {
  if (draft.kind === 'undo') return draft;
  const { line, ...rest } = draft;
  return { ...rest, ...line };
}
