/** Between the journal and the stand: what was kept becomes what is known, what happens becomes an entry. */
import { type Happening } from '../diary/entry.ts';
import { type Line, lineName } from '../ladder/line.ts';
import type { Fold } from '../journal/journal-fold.ts';
import type { PlayedLine } from '../ladder/speed/speed-knowledge.ts';

import type { Draft } from '../practice/line/line-on-stand.ts';
import type { Kept } from './desk.ts';

/** Every line the journal knows, by its id. */
export const knownLines = ({ lines }: Fold): Readonly<Record<string, PlayedLine>> => Object.fromEntries(lines);

export function happeningOf(draft: Draft): Happening {
  const { line, ...rest } = draft;
  return draft.kind === 'undo' ? { kind: 'undo', of: draft.of } : ({ ...rest, ...line } as Happening);
}

/** What is known of the draft's line, once it is kept. */
export const keptLine = (line: Line, { lines }: Fold): Kept['line'] => ({
  id: lineName(line),
  history: lines.get(lineName(line)) ?? null,
});
