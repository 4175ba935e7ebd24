/** What a key came to: decided where the ladder is asked, remembered until the next repetition begins. */
import type { MarkEntry } from '../../diary/entry.ts';
import type { Climb } from '../../ladder/rule/climb.ts';
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import type { Bpm } from '../../common/units.ts';
import type { Phase, Practice } from './line-on-stand.ts';

/** 'held': enough clean ones in a row on the top rung, above which there is none. */
export type Outcome = Mark | 'climbed' | 'fallen' | 'held' | 'taken back';

export interface Happened {
  readonly outcome: Outcome;
  /** Missed ones in a row after a missed one, else clean ones. */
  readonly run: number;
  /** How many in a row move the ladder. */
  readonly of: number;
  /** The ladder's tempo from now on. */
  readonly bpm: Bpm;
  /** When the key came. */
  readonly during: Phase;
}

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

const isCounting = (phase: Phase): boolean => phase === 'count-in' || phase === 'slow';

/** What the last key came to, for as long as it matters; null then. A mark given early is `due.early`. */
export function happenedNow({ happened, phase }: Pick<Practice, 'happened' | 'phase'>): Happened | null {
  if (!happened) return null;
  const matters = STAYS.includes(happened.outcome) || happened.during === phase || !isCounting(phase);
  return matters ? happened : null;
}
