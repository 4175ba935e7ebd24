/**
 * Where a rule ends up with a given player. The chain is made by asking the rule itself what each mark
 * does, so it cannot differ from what is practised. Its states are (rung, clean run, missed run).
 */
import type { Bpm } from '../../common/units.ts';
import { type Chain, type Transition, chainOf, longRunShares, expectedStepsToLeave } from './markov-chain.ts';
import { afterMark } from '../rule/climb.ts';
import { type PlayerCurve, type MarkChances, markChances } from './player-curve.ts';
import type { LadderRule, Mark } from '../rule/ladder-rule.ts';
import { type Rungs, nearestRung, rungsOf } from '../rule/rungs.ts';

export interface RungShare {
  readonly bpm: Bpm;
  /** The share of all repetitions played at this rung. */
  readonly share: number;
  /** The share of them that is clean. */
  readonly clean: number;
}

export interface Settling {
  /** Mean tempo of the repetitions in the long run, over the logarithm. */
  readonly tempo: Bpm;
  /** Shares of clean, tense and missed repetitions there; they add up to 1. */
  readonly marks: MarkChances;
  /** Eight of ten repetitions are played from the lower to the higher. */
  readonly low: Bpm;
  readonly high: Bpm;
  /** Standard deviation of the tempo, as a share of it. */
  readonly spread: number;
  readonly rungs: readonly RungShare[];
}

interface Place {
  readonly rung: number;
  readonly cleanRun: number;
  readonly missedRun: number;
}

const MARKS: readonly Mark[] = ['clean', 'tense', 'missed'];

/** How many states one rung has: no run, each clean run, each missed run. */
const statesPerRung = (rule: LadderRule): number => rule.cleanUp + rule.missedDown - 1;

export const chainStates = (rule: LadderRule): number => rungsOf(rule).length * statesPerRung(rule);

/** States beyond this would take seconds, then minutes and gigabytes. */
const MOST_STATES = 20_000;

const indexOf = (rule: LadderRule, { rung, cleanRun, missedRun }: Place): number =>
  rung * statesPerRung(rule) + (missedRun > 0 ? rule.cleanUp - 1 + missedRun : cleanRun);

function placeOf(rule: LadderRule, index: number): Place {
  const rung = Math.floor(index / statesPerRung(rule));
  const run = index % statesPerRung(rule);
  return run < rule.cleanUp
    ? { rung, cleanRun: run, missedRun: 0 }
    : { rung, cleanRun: 0, missedRun: run - rule.cleanUp + 1 };
}

/** From each state, where each mark leads and how likely it is. */
function stepsOf(rule: LadderRule, rungs: Rungs, curve: PlayerCurve): readonly (readonly Transition[])[] {
  const rungAt = new Map(rungs.map((bpm, rung) => [bpm, rung]));
  const chances = rungs.map((bpm) => markChances(curve, bpm));
  return Array.from({ length: rungs.length * statesPerRung(rule) }, (_, index) => {
    const { rung, ...runs } = placeOf(rule, index);
    return MARKS.map((mark): Transition => {
      const next = afterMark({ bpm: rungs[rung]!, ...runs, best: null }, mark, rule, rungs);
      return [indexOf(rule, { ...next, rung: rungAt.get(next.bpm)! }), chances[rung]![mark]];
    });
  });
}

/** States that the ladder ever comes to: moves of two rungs leave every other rung out. */
function reached(steps: readonly (readonly Transition[])[], start: number): readonly number[] {
  const seen = new Set([start]);
  for (const state of seen) for (const [to] of steps[state]!) seen.add(to);
  return [...seen].sort((a, b) => a - b);
}

function restricted(steps: readonly (readonly Transition[])[], states: readonly number[]): Chain {
  const place = new Map(states.map((state, i) => [state, i]));
  return chainOf(states.map((state) => steps[state]!.map(([to, chance]): Transition => [place.get(to)!, chance])));
}

function shares(rule: LadderRule, rungs: Rungs, curve: PlayerCurve): readonly number[] {
  const steps = stepsOf(rule, rungs, curve);
  const start = indexOf(rule, { rung: nearestRung(rungs, rule.start), cleanRun: 0, missedRun: 0 });
  const states = reached(steps, start);
  const visits = longRunShares(restricted(steps, states));
  const byRung = rungs.map(() => 0);
  states.forEach((state, i) => (byRung[placeOf(rule, state).rung]! += visits[i]!));
  return byRung;
}

/** The first rung at or below which a share of the repetitions is played. */
function quantile(rungs: readonly RungShare[], share: number): Bpm {
  let sum = 0;
  return rungs.find((rung) => (sum += rung.share) >= share)!.bpm;
}

const mean = (rungs: readonly RungShare[], of: (rung: RungShare) => number): number =>
  rungs.reduce((sum, rung) => sum + rung.share * of(rung), 0);

function marksOver(rungs: readonly RungShare[], curve: PlayerCurve): MarkChances {
  const share = (mark: Mark): number => mean(rungs, ({ bpm }) => markChances(curve, bpm)[mark]);
  return { clean: share('clean'), tense: share('tense'), missed: share('missed') };
}

/**
 * The exact long run of a rule (`checkRule` must have nothing to say about it) with a player who neither
 * learns nor tires. Of the order 'alternate' only the repetitions at tempo are counted: the slow ones in
 * between move nothing.
 */
export function settlingOf(rule: LadderRule, curve: PlayerCurve): Settling {
  const bpms = rungsOf(rule);
  const visits = shares(rule, bpms, curve);
  const rungs = bpms.map((bpm, i) => ({ bpm, share: visits[i]!, clean: markChances(curve, bpm).clean }));
  const centre = mean(rungs, ({ bpm }) => Math.log(bpm));
  return {
    tempo: Math.exp(centre),
    marks: marksOver(rungs, curve),
    low: quantile(rungs, 0.1),
    high: quantile(rungs, 0.9),
    spread: Math.sqrt(mean(rungs, ({ bpm }) => (Math.log(bpm) - centre) ** 2)),
    rungs,
  };
}

/** Expected repetitions from a first one at `from` until the rung `to` is reached; Infinity if it never is. */
export function repetitionsBetween(rule: LadderRule, curve: PlayerCurve, from: Bpm, to: Bpm): number {
  const rungs = rungsOf(rule);
  const goal = nearestRung(rungs, to);
  const first = nearestRung(rungs, from);
  if (first >= goal) return 0;
  const size = goal * statesPerRung(rule);
  const steps = stepsOf(rule, rungs, curve).slice(0, size);
  const leave = Float64Array.from(steps, (row) => row.reduce((sum, [next, p]) => sum + (next >= size ? p : 0), 0));
  // What a step beyond the goal does is not asked: the chain has been left.
  return expectedStepsToLeave(chainOf(steps), leave)[indexOf(rule, { rung: first, cleanRun: 0, missedRun: 0 })]!;
}

/** One sentence for a settings screen: 'This rule settles where you are clean 79 % of the time.' */
export function settlingSentence(rule: LadderRule, curve: PlayerCurve): string {
  if (chainStates(rule) > MOST_STATES) return 'This ladder has too many rungs to say where it settles.';
  const { marks } = settlingOf(rule, curve);
  return `This rule settles where you are clean ${Math.round(marks.clean * 100)} % of the time.`;
}
