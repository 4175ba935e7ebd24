/** Between the journal and the stand: what was kept becomes what is known, what happens becomes an entry. */
import type { Fold } from '../journal/fold.ts';
import type { PlayedLine } from '../ladder/knowledge.ts';
import { type Line, lineId } from '../plan/exercise.ts';
import type { Draft } from '../practice/practice.ts';
import type { Kept } from './desk.ts';
import type { Happening } from './player-data.ts';

/** Every line the journal knows, by its id. */
export const knownLines = ({ lines }: Fold): Readonly<Record<string, PlayedLine>> => Object.fromEntries(lines);

export function happeningOf(draft: Draft): Happening {
  const { line, ...rest } = draft;
  return draft.kind === 'undo' ? { kind: 'undo', of: draft.of } : ({ ...rest, ...line } as Happening);
}

/** What is known of the draft's line, once it is kept. */
export const keptLine = (line: Line, { lines }: Fold): Kept['line'] => ({
  id: lineId(line),
  history: lines.get(lineId(line)) ?? null,
});
