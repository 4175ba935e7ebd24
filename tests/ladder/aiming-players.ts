/** Simulated players under a rule that aims at a share of clean repetitions, day after day. */
import type { Chance } from '../../src/common/chance.ts';
import { afterMark, startAt } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE, type LadderRule, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { type SimulatedPlayer, nextDay, playOnce } from '../../src/ladder/settling/simulated-player.ts';
import { type PlayedSince, outlookAfter } from '../../src/ladder/speed/clean-expected.ts';
import { type Belief, NO_BELIEF, markingOf, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { startToday } from '../../src/ladder/speed/todays-start.ts';
import { afterMarks } from './histories.ts';
import { tempoWhereClean } from './simulated-players.ts';

const MARKING = markingOf(0.3);

/** All marks of so many days of so many repetitions. */
export function aimedMarks(
  player: SimulatedPlayer,
  aim: number,
  days: number,
  aDay: number,
  chance: Chance,
): readonly Mark[] {
  const start = Math.max(40, tempoWhereClean(player.curve, 0.9) * (0.75 + 0.25 * chance()));
  const rule: LadderRule = { ...DEFAULT_RULE, aim, start: Math.round(start) };
  const rungs = rungsOf(rule);
  const prior = weakPrior(rule);
  const marks: Mark[] = [];
  const played: { clean: number; all: number }[] = [];
  let now = player;
  let belief: Belief = NO_BELIEF;
  let best: number | null = null;
  for (let day = 0; day < days; day += 1) {
    const morning = belief;
    const first = startToday({ rule, rungs, marking: MARKING, belief, prior, best, day });
    let climb = startAt(first.bpm, best);
    const since: PlayedSince[] = [];
    for (let n = 0; n < aDay; n += 1) {
      const { mark, player: after } = playOnce(now, climb.bpm, chance);
      now = after;
      since.push({ bpm: climb.bpm, mark });
      const outlook = outlookAfter({ marking: MARKING, belief: morning, prior, day, played }, since);
      climb = afterMark(climb, mark, rule, rungs, outlook);
    }
    marks.push(...since.map(({ mark }) => mark));
    played.push(...since.map(({ mark }) => ({ clean: mark === 'clean' ? 1 : 0, all: 1 })));
    belief = afterMarks(
      MARKING,
      morning,
      since.map((one) => ({ ...one, day })),
    );
    best = climb.best;
    now = nextDay(now, chance);
  }
  return marks;
}
