/** What a key came to: decided where the ladder is asked, remembered until the next repetition begins. */
import type { MarkEntry } from '../../diary/entry.ts';
import type { Climb } from '../../ladder/rule/climb.ts';
import type { Happened, Outcome, Phase, Practice } from './line-on-stand.ts';

/** `before` is where the ladder stood; the entry tells where the rule has put it. */
export function whatMarkDid(before: Climb, entry: MarkEntry, during: Phase): Happened {
  const { mark, bpm, next, cleanUp, missedDown } = entry;
  const at = before.bpm === bpm ? before : { cleanRun: 0, missedRun: 0 };
  const run = mark === 'clean' ? at.cleanRun + 1 : mark === 'missed' ? at.missedRun + 1 : 0;
  const of = mark === 'missed' ? missedDown : cleanUp;
  const moved = next > bpm ? 'climbed' : next < bpm ? 'fallen' : null;
  const outcome = moved ?? (mark === 'clean' && run >= of ? 'held' : mark);
  return { outcome, run, of, bpm: next, during };
}

/** `run` and `of` as they are again. */
export const takenBack = ({ bpm, cleanRun }: Climb, cleanUp: number, during: Phase): Happened => ({
  outcome: 'taken back',
  run: cleanRun,
  of: cleanUp,
  bpm,
  during,
});

/** A move of the ladder is shown through the count-in at its new tempo; a mark only until that begins. */
const STAYS: readonly Outcome[] = ['climbed', 'fallen', 'held'];

/** What the last key came to, for as long as it matters; null then. A mark given early is `due.early`. */
export function happenedNow({ happened, phase }: Pick<Practice, 'happened' | 'phase'>): Happened | null {
  if (!happened) return null;
  const matters = STAYS.includes(happened.outcome) || happened.during === phase || phase !== 'count-in';
  return matters ? happened : null;
}
