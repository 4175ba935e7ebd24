/** Which reminder about ease to show, and when: one at a time, seldom, at rests. */
import type { Chance } from '../../common/chance.ts';
import type { Seconds } from '../../common/units.ts';

export interface CueState {
  /** Played in this block when the last cue came up; null before the first. */
  readonly shownAt: Seconds | null;
  readonly last: string | null;
  /** To be shown now; null at most rests. */
  readonly cue: string | null;
}

export const NO_CUE: CueState = { shownAt: null, last: null, cue: null };

/** So long into a block the first cue may come, and so long after one the next. */
const FIRST_AFTER: Seconds = 20;
export const NEXT_AFTER: Seconds = 90;

const isDue = ({ shownAt }: CueState, played: Seconds): boolean =>
  shownAt === null ? played >= FIRST_AFTER : played - shownAt >= NEXT_AFTER;

/**
 * At a rest (a breathing bar, the end of a breath): the cue to show now, or none. Hand the result in again the
 * next time. The same cue does not come twice in a row while there are others.
 */
export function cueAtRest(before: CueState, cues: readonly string[], played: Seconds, chance: Chance): CueState {
  if (!isDue(before, played)) return { ...before, cue: null };
  const others = cues.filter((cue) => cue !== before.last);
  const from = others.length > 0 ? others : cues;
  const cue = from[Math.floor(chance() * from.length)];
  return cue === undefined ? NO_CUE : { shownAt: played, last: cue, cue };
}
