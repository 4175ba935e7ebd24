/** The simulated players that the estimate is tried on. The range is stated here, wide on purpose. */
import { type DayNumber } from '../../src/common/days.ts';
import { type Chance, evenInLog } from '../../src/common/chance.ts';
import type { Bpm } from '../../src/common/units.ts';

import { type Belief, NO_BELIEF, markingOf, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { startAt } from '../../src/ladder/rule/climb.ts';
import { type PlayerCurve, logit } from '../../src/ladder/settling/player-curve.ts';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { nearestRung, rungsOf } from '../../src/ladder/rule/rungs.ts';
import {
  type SimulatedPlayer,
  nextDay,
  simulatedPlayer,
  playLadder,
} from '../../src/ladder/settling/simulated-player.ts';
import { startToday } from '../../src/ladder/speed/todays-start.ts';
import { afterMarks } from './histories.ts';

/**
 * The tempo at which a share of the repetitions is clean; 0 where lapses alone cost more.
 * `tempoWhereClean(curve, 0.9)` is what an estimate looks for.
 */
export const tempoWhereClean = ({ threshold, slope, lapse }: PlayerCurve, clean: number): number =>
  clean >= 1 - lapse ? 0 : threshold * Math.exp(-logit(clean / (1 - lapse)) / slope);

/**
 * Threshold 60 to 200 beats per minute and slope 6 to 40, both even over the logarithm; lapses 0 to 6 %; tense
 * 0 to 50 %. They change while they are watched: drift and daily form up to 2 % each, fatigue up to 0.1 % a
 * repetition, learning up to 0.15 % a clean one.
 */
export function anyPlayer(chance: Chance): SimulatedPlayer {
  const curve = {
    threshold: evenInLog(chance, 60, 200),
    slope: evenInLog(chance, 6, 40),
    lapse: 0.06 * chance(),
    tense: 0.5 * chance(),
  };
  return simulatedPlayer(curve, {
    drift: 0.02 * chance(),
    form: 0.02 * chance(),
    fatigue: 0.001 * chance(),
    learning: 0.0015 * chance(),
    ceiling: 300,
    rust: 0.004,
  });
}

export const DAYS = 6;
export const A_DAY = 10;
/** What a player gets who sets nothing. */
const RUNGS = rungsOf(DEFAULT_RULE);
const MARKING = markingOf(0.3);

export interface Watched {
  readonly player: SimulatedPlayer;
  readonly belief: Belief;
  readonly prior: ReturnType<typeof weakPrior>;
  readonly day: DayNumber;
}

/**
 * 60 marks in six days by the default rule. The first day starts at a guess, 75 to 100 % of the true nine-in-ten
 * tempo; later days where the program starts a line first thing in the day.
 */
export function watched(chance: Chance): Watched {
  let player = anyPlayer(chance);
  const guess = Math.max(40, tempoWhereClean(player.curve, 0.9) * evenInLog(chance, 0.75, 1));
  const prior = weakPrior({ start: guess });
  let belief = NO_BELIEF;
  let best: Bpm | null = null;
  let reached: Bpm | null = null;
  for (let day = 0; day < DAYS; day += 1) {
    if (day > 0) player = nextDay(player, chance);
    const likely =
      day === 0
        ? guess
        : startToday({ rule: DEFAULT_RULE, rungs: RUNGS, marking: MARKING, belief, prior, best, reached, day }).bpm;
    const start = startAt(RUNGS[nearestRung(RUNGS, likely)]!, best);
    const { player: after, climb, marks } = playLadder(player, start, DEFAULT_RULE, RUNGS, A_DAY, chance);
    player = after;
    ({ best } = climb);
    reached = Math.max(reached ?? 0, ...marks.filter(({ mark }) => mark === 'clean').map(({ bpm }) => bpm)) || null;
    belief = afterMarks(
      MARKING,
      belief,
      marks.map((mark) => ({ ...mark, day })),
    );
  }
  return { player, belief, prior, day: DAYS - 1 };
}
