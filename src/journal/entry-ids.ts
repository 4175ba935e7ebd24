/** Ids of entries: UUID version 7 (RFC 9562), so that sorting ids sorts moments. */
import { v7 } from 'uuid';
import type { Milliseconds } from '../common/units.ts';

/** The moment in an id: `momentOf('018bcfe5-6800-7…')` is 1700000000000. */
export const momentOf = (id: string): Milliseconds => Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);

/** Further ahead of a clock than time zones and clocks that are set make an id: what wrote it is not to be trusted. */
export const FAR_AHEAD: Milliseconds = 2 * 86_400_000;

const SEQUENCES = 2 ** 31;

/**
 * A source of ids, each greater than all before it and than `last`, the newest in the journal: a clock
 * that was set back must not slip a new mark in before an old one.
 *
 * @param wall milliseconds since 1970
 */
export function entryIds(last: string | null, wall: () => Milliseconds): () => string {
  let msecs = last === null ? -1 : momentOf(last);
  let seq = SEQUENCES;
  return () => {
    const now = Math.floor(wall());
    if (now > msecs) {
      msecs = now;
      seq = 0;
    } else if (seq >= SEQUENCES) {
      msecs += 1;
      seq = 0;
    } else seq += 1;
    return v7({ msecs, seq });
  };
}
