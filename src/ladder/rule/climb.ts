/** The rule of the ladder: what one mark does to a line. */
import type { Bpm } from '../../common/units.ts';
import { type Rungs, rungFrom } from './rungs.ts';
import type { LadderRule, Mark } from './ladder-rule.ts';

export interface Climb {
  /** The tempo of the next repetition. */
  readonly bpm: Bpm;
  /** Clean repetitions in a row at this rung so far. */
  readonly cleanRun: number;
  /** Missed repetitions in a row at this rung so far. */
  readonly missedRun: number;
  /** Highest rung held; null until one is. */
  readonly best: Bpm | null;
}

export const startAt = (bpm: Bpm, best: Bpm | null = null): Climb => ({ bpm, cleanRun: 0, missedRun: 0, best });

const higher = (a: Bpm | null, b: Bpm): Bpm => (a === null ? b : Math.max(a, b));

function afterClean(climb: Climb, rule: LadderRule, rungs: Rungs): Climb {
  const cleanRun = climb.cleanRun + 1;
  if (cleanRun < rule.cleanUp) return { ...climb, cleanRun, missedRun: 0 };
  const up = rungFrom(rungs, climb.bpm, rule.rungsUp);
  return { bpm: up, cleanRun: 0, missedRun: 0, best: higher(climb.best, climb.bpm) };
}

function afterMissed(climb: Climb, rule: LadderRule, rungs: Rungs): Climb {
  const missedRun = climb.missedRun + 1;
  if (missedRun < rule.missedDown) return { ...climb, cleanRun: 0, missedRun };
  return { ...startAt(rungFrom(rungs, climb.bpm, -rule.rungsDown), climb.best) };
}

/**
 * Up after N clean in a row, down after M missed in a row; a tense mark ends both runs and holds the rung.
 * Reaching N clean in a row makes the rung a best, if it is the highest so far.
 */
export function afterMark(climb: Climb, mark: Mark, rule: LadderRule, rungs: Rungs): Climb {
  if (mark === 'clean') return afterClean(climb, rule, rungs);
  if (mark === 'missed') return afterMissed(climb, rule, rungs);
  return { ...climb, cleanRun: 0, missedRun: 0 };
}

/** The player moves the ladder by hand: the runs start again. */
export const nudged = (climb: Climb, by: number, rungs: Rungs): Climb =>
  startAt(rungFrom(rungs, climb.bpm, by), climb.best);
