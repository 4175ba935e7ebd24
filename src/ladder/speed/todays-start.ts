/** Where a line starts today, and why: one line for the player, who can always overrule it. */
import { type DayNumber } from '../../common/days.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Bpm } from '../../common/units.ts';

import { type Belief, type Marking, type Normal, weightsOn, chanceOfClean } from './speed-estimate.ts';
import { SHARE_SOUGHT } from './estimate-grid.ts';
import type { LadderRule } from '../rule/ladder-rule.ts';
import { type Rungs, nearestRung, rungFrom } from '../rule/rungs.ts';

export interface Start {
  readonly bpm: Bpm;
  /** One line of plain text. */
  readonly reason: string;
}

export interface StartInput {
  readonly rule: LadderRule;
  readonly rungs: Rungs;
  readonly marking: Marking;
  readonly belief: Belief;
  readonly prior: Normal;
  /** Highest rung held; null until one is. */
  readonly best: Bpm | null;
  readonly day: DayNumber;
  /** Whether lines like it, and not only the exercise's own start, stand behind the prior. */
  readonly siblings?: boolean;
}

/** A break of so many days is a lay-off. */
const LAY_OFF_DAYS = 7;
/** Then 3 % lower for each week, 20 % at most. Common practice, no source: go back gently after a break. */
const LOWER_PER_WEEK = 0.03;
const LOWEST_SHARE = 0.8;

/** The highest rung where a clean repetition is likely enough; the lowest one if none is. */
function likelyRung({ rungs, marking, belief, prior, day }: Omit<StartInput, 'rule' | 'best'>): Bpm {
  const weights = weightsOn(belief, prior, day);
  let low = 0;
  let high = rungs.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (chanceOfClean(weights, marking(rungs[middle]!)) >= SHARE_SOUGHT) low = middle;
    else high = middle;
  }
  return rungs[low]!;
}

const awayOf = ({ belief, day }: StartInput): number => day - (belief.day ?? day);

const atOrBelow = (rungs: Rungs, bpm: Bpm): Bpm => {
  const rung = rungs[nearestRung(rungs, bpm)]!;
  return rung > bpm ? rungFrom(rungs, rung, -1) : rung;
};

function unplayed(input: StartInput): Start {
  const { rule, rungs } = input;
  const own = rungs[nearestRung(rungs, rule.start)]!;
  if (!input.siblings)
    return { bpm: own, reason: `Start at ${bpmText(own)}: the exercise's own start, for a line not played yet.` };
  const bpm = likelyRung(input);
  return { bpm, reason: `Start at ${bpmText(bpm)}: not played yet; your other keys and articulations point there.` };
}

function afterLayOff(input: StartInput, likely: Bpm, days: number): Start {
  const { rungs } = input;
  const share = Math.max(LOWEST_SHARE, 1 - LOWER_PER_WEEK * Math.floor(days / 7));
  const top = Math.min(likely, input.best ?? likely);
  const bpm = Math.min(rungFrom(rungs, top, -1), atOrBelow(rungs, top * share));
  return { bpm, reason: `Start at ${bpmText(bpm)}: below ${bpmText(top)}, after ${days} days without this line.` };
}

/**
 * Never above the best, and lower after a lay-off. A line without marks starts where its siblings point, or
 * where its exercise says.
 */
export function startToday(input: StartInput): Start {
  if (input.belief.marks === 0) return unplayed(input);
  const likely = likelyRung(input);
  const days = awayOf(input);
  if (days >= LAY_OFF_DAYS) return afterLayOff(input, likely, days);
  const best = input.best === null ? null : atOrBelow(input.rungs, input.best);
  if (best !== null && best < likely)
    return { bpm: best, reason: `Start at ${bpmText(best)}: your best; the marks so far say that it is safe.` };
  return {
    bpm: likely,
    reason: `Start at ${bpmText(likely)}: the highest where the marks so far say 9 of 10 are clean.`,
  };
}
