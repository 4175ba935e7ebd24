/** A simulated player's first 200 marks on one line, by the program's own rule, start and estimate. */
import type { Chance } from '../../src/common/chance.ts';
import { evenInLog, normal } from '../../src/common/chance.ts';
import { dateOf } from '../../src/common/days.ts';
import { type Climb, startAt } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';
import { type Rungs, nearestRung, rungsOf } from '../../src/ladder/rule/rungs.ts';
import { nextDay, playLadder } from '../../src/ladder/settling/simulated-player.ts';
import {
  type Knowledge,
  type PlayedLine,
  estimateOf,
  learnAllLines,
  learnLineAgain,
  startOf,
} from '../../src/ladder/speed/speed-knowledge.ts';
import { weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { type TrialPlayer, nextLuck } from './estimate-players.ts';
import { type Played, talliesOf } from './histories.ts';
import { tempoWhereClean } from './simulated-players.ts';
import { toldMarks, toldNight, toldNothing, toldTempo } from './told-the-curve.ts';

export const CHECKPOINTS = [10, 30, 60, 200] as const;

/** What the estimate said after so many marks, beside the truth: the tempo of nine in ten, rested, form apart. */
export interface Reading {
  readonly marks: number;
  readonly covered: boolean;
  /** As a share of the truth. */
  readonly error: number;
  /** The same of who is told the curve. */
  readonly errorIfTold: number;
  readonly width: number;
}

const LINE = { exercise: 'five-notes', articulation: 'single', key: 'C' };
const FIRST_DAY = 20_000;
const WIDE: LadderRule = { ...DEFAULT_RULE, floor: 20, top: 480 };

interface Sitting {
  readonly trial: TrialPlayer;
  readonly climb: Climb;
  readonly marks: readonly Played[];
}

/** So many repetitions, one at a time, because luck may turn between two. */
function sat(trial: TrialPlayer, from: Climb, rule: LadderRule, rungs: Rungs, times: number, chance: Chance): Sitting {
  let { player } = trial;
  let [climb, luck] = [from, trial.streak.sd * normal(chance)];
  const { form } = player;
  const marks: Played[] = [];
  for (let i = 0; i < times; i += 1) {
    luck = nextLuck(trial.streak, luck, chance);
    const run = playLadder({ ...player, form: form + luck }, climb, rule, rungs, 1, chance);
    marks.push(...run.marks);
    player = { ...run.player, form };
    ({ climb } = run);
  }
  return { trial: { ...trial, player }, climb, marks };
}

/** A night, with what a day of practice brings. */
function slept({ player, gain, ...rest }: TrialPlayer, chance: Chance): TrialPlayer {
  const next = nextDay(player, chance);
  const curve = { ...next.curve, threshold: next.curve.threshold * (1 + gain) };
  return { ...rest, gain, player: { ...next, curve } };
}

const historyWith = (before: PlayedLine | null, marks: readonly Played[], day: number, climb: Climb): PlayedLine => ({
  line: LINE,
  bpm: climb.bpm,
  cleanRun: climb.cleanRun,
  missedRun: climb.missedRun,
  best: climb.best === null ? null : { bpm: climb.best, day: dateOf(day) },
  lastDay: dateOf(day),
  tallies: [...(before?.tallies ?? []), ...talliesOf(dateOf(day), marks)],
  notesPerBeat: 4,
});

/** Days of practice until the last of `checkpoints` is reached; what the estimate says at each. */
export function readings(
  someone: TrialPlayer,
  chance: Chance,
  checkpoints: readonly number[] = CHECKPOINTS,
): Reading[] {
  let trial = someone;
  const truthNow = (): number => tempoWhereClean(trial.player.curve, 0.9);
  const start = Math.min(300, Math.max(20, truthNow() * evenInLog(chance, 0.7, 1.05)));
  const rule = { ...WIDE, start, target: Math.min(480, truthNow() * 1.6) };
  const rungs = rungsOf(rule);
  const ask = (day: number) => ({ line: LINE, notesPerBeat: 4, rule, day, warm: trial.warm ?? false });
  let history: PlayedLine | null = null;
  let knowledge: Knowledge = learnAllLines([]);
  let [day, marked, best] = [FIRST_DAY, 0, null as number | null];
  const found: Reading[] = [];
  let told = toldNothing(trial.player, weakPrior(rule));
  for (const next of checkpoints) {
    let climb: Climb | null = null;
    while (marked < next) {
      climb ??= startAt(rungs[nearestRung(rungs, startOf(knowledge, ask(day), rungs).bpm)]!, best);
      const times = Math.min(next - marked, trial.aDay);
      const sitting = sat(trial, climb, rule, rungs, times, chance);
      history = historyWith(history, sitting.marks, day, sitting.climb);
      told = toldMarks(told, trial.player, sitting.trial.player, sitting.marks);
      ({ trial } = sitting);
      best = sitting.climb.best;
      marked += times;
      if (marked < next) {
        trial = slept(trial, chance);
        told = toldNight(told, trial.player, trial.gain);
        knowledge = learnLineAgain(knowledge, history);
        day += 1;
        climb = null;
      }
    }
    knowledge = learnAllLines([history!]);
    const { bpm, low, high } = estimateOf(knowledge, ask(day));
    const truth = truthNow();
    found.push({
      marks: next,
      covered: low <= truth && truth <= high,
      error: Math.abs(bpm / truth - 1),
      errorIfTold: Math.abs(toldTempo(told) / truth - 1),
      width: high / low - 1,
    });
    trial = slept(trial, chance);
    told = toldNight(told, trial.player, trial.gain);
    day += 1;
  }
  return found;
}

export interface Summary {
  readonly marks: number;
  /** Share of the players whose 80 % interval held the truth. */
  readonly coverage: number;
  readonly medianError: number;
  readonly medianErrorIfTold: number;
  readonly medianWidth: number;
}

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1] ?? NaN;

/** So many players of a kind, each with chance of their own. */
export function summaries(
  players: number,
  drawn: (chance: Chance) => TrialPlayer,
  chanceOf: (player: number) => Chance,
  checkpoints: readonly number[] = CHECKPOINTS,
): readonly Summary[] {
  const all = Array.from({ length: players }, (_, i) => {
    const chance = chanceOf(i);
    return readings(drawn(chance), chance, checkpoints);
  });
  return checkpoints.map((marks, k) => {
    const at = all.map((one) => one[k]!);
    return {
      marks,
      coverage: at.filter(({ covered }) => covered).length / players,
      medianError: median(at.map(({ error }) => error)),
      medianErrorIfTold: median(at.map(({ errorIfTold }) => errorIfTold)),
      medianWidth: median(at.map(({ width }) => width)),
    };
  });
}
