/**
 * Today's start against two simpler policies, over simulated weeks: `npm run compare:start`.
 * The same players, with the same chance, under each policy.
 */
import { evenInLog, seeded } from '../../src/common/chance.ts';
import { startAt } from '../../src/ladder/rule/climb.ts';
import { type Belief, NO_BELIEF, markingOf, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';
import { nearestRung, rungsOf } from '../../src/ladder/rule/rungs.ts';
import {
  nextDay,
  playLadder,
  simulatedPlayer,
  type SimulatedPlayer,
} from '../../src/ladder/settling/simulated-player.ts';
import { startToday } from '../../src/ladder/speed/todays-start.ts';
import { afterMarks } from '../ladder/histories.ts';
import { tempoWhereClean } from '../ladder/simulated-players.ts';

const PLAYERS = 300;
const WEEKS = 8;
/** Enough to climb back from 80 % of the best, eight rungs of three, and beyond. */
const REPETITIONS = 30;
/** Days since the one before: five a week with a weekend between, and one lay-off of three weeks. */
const GAPS = Array.from({ length: WEEKS * 5 }, (_, i) => (i === 25 ? 21 : i % 5 === 0 && i > 0 ? 3 : 1));

const RULE = DEFAULT_RULE;
const RUNGS = rungsOf(RULE);

interface Known {
  readonly rule: LadderRule;
  readonly belief: Belief;
  readonly best: number | null;
  readonly last: number;
  readonly day: number;
}

const MARKING = markingOf(0.3);

type Policy = (known: Known) => number;

const POLICIES: Readonly<Record<string, Policy>> = {
  "today's start": ({ rule, belief, best, day }) =>
    startToday({ rule, rungs: RUNGS, marking: MARKING, belief, prior: weakPrior(rule), best, day }).bpm,
  '80 % of the best': ({ rule, best }) => (best === null ? rule.start : best * 0.8),
  'where the last day ended': ({ last }) => last,
};

/**
 * Threshold 60 to 200, slope 6 to 40, lapses to 6 %, tense to 50 %; learning up to 0.3 % a clean repetition near the
 * threshold.
 */
function somebody(seed: number): SimulatedPlayer {
  const chance = seeded(seed);
  const threshold = evenInLog(chance, 60, 200);
  const curve = { threshold, slope: evenInLog(chance, 6, 40), lapse: 0.06 * chance(), tense: 0.5 * chance() };
  const learning = 0.003 * chance();
  const temper = { drift: 0.01, form: 0.02, fatigue: 0.001, learning, ceiling: threshold * 1.4, rust: 0.004 };
  return simulatedPlayer(curve, temper);
}

interface Outcome {
  readonly repetitions: number;
  readonly missed: number;
  readonly clean: number;
  /** How often the best rose, in rungs, after the first. */
  readonly rungsGained: number;
  /** Best at the end, against the player's nine-in-ten tempo at the beginning. */
  readonly best: number;
}

const gained = (before: number | null, after: number | null): number =>
  before === null || after === null ? 0 : nearestRung(RUNGS, after) - nearestRung(RUNGS, before);

function weeksOf(policy: Policy, seed: number): Outcome {
  const chance = seeded(seed + 1_000_000);
  let player = somebody(seed);
  const truth = tempoWhereClean(player.curve, 0.9);
  const rule = { ...RULE, start: Math.max(RULE.floor, truth * 0.75) };
  let known: Known = { rule, belief: NO_BELIEF, best: null, last: rule.start, day: 0 };
  let [missed, clean, rungsGained] = [0, 0, 0];
  for (const gap of GAPS) {
    const day = known.day + gap;
    player = nextDay(player, chance, gap);
    const bpm = RUNGS[nearestRung(RUNGS, policy({ ...known, day }))]!;
    const {
      player: after,
      climb,
      marks,
    } = playLadder(player, startAt(bpm, known.best), rule, RUNGS, REPETITIONS, chance);
    player = after;
    missed += marks.filter(({ mark }) => mark === 'missed').length;
    clean += marks.filter(({ mark }) => mark === 'clean').length;
    rungsGained += gained(known.best, climb.best);
    const belief = afterMarks(
      MARKING,
      known.belief,
      marks.map((mark) => ({ ...mark, day })),
    );
    known = { rule, belief, best: climb.best, last: climb.bpm, day };
  }
  return { repetitions: GAPS.length * REPETITIONS, missed, clean, rungsGained, best: (known.best ?? 0) / truth };
}

const mean = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0) / numbers.length;

function row(name: string, outcomes: readonly Outcome[]): string {
  const share = (of: (outcome: Outcome) => number): string =>
    `${(100 * mean(outcomes.map((outcome) => of(outcome) / outcome.repetitions))).toFixed(1)} %`;
  const perBest =
    outcomes.reduce((sum, { repetitions }) => sum + repetitions, 0) /
    outcomes.reduce((sum, { rungsGained }) => sum + rungsGained, 0);
  const best = mean(outcomes.map((outcome) => outcome.best));
  return (
    `| ${name} | ${perBest.toFixed(1)} | ${share(({ missed }) => missed)} | ${share(({ clean }) => clean)} ` +
    `| ${best.toFixed(3)} |`
  );
}

/** The table, in Markdown. */
function comparison(players: number): string {
  const rows = Object.entries(POLICIES).map(([name, policy]) =>
    row(
      name,
      Array.from({ length: players }, (_, seed) => weeksOf(policy, seed)),
    ),
  );
  return [
    '| start | repetitions for each rung of new best | missed | clean | best at the end, of the 9-in-10 tempo ' +
      'at the beginning |',
    '| --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}

process.stdout.write(`${comparison(PLAYERS)}\n`);
