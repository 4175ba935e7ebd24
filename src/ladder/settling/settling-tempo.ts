/** Where a rule ends up with a given player: in the long run, and in the repetitions of an ordinary sitting. */
import type { Bpm } from '../../common/units.ts';
import { type Chain, type Transition, chainOf, longRunShares, expectedStepsToLeave } from './markov-chain.ts';
import { type PlayerCurve, type MarkChances, markChances } from './player-curve.ts';
import { NO_RUN, chainStates, indexOf, placeOf, startState, statesPerRung, stepsOf } from './rule-chain.ts';
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

/** States beyond this would take seconds, then minutes and gigabytes. */
const MOST_STATES = 20_000;

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

/** By rung, the share of all repetitions in the long run. */
function longRun(rule: LadderRule, rungs: Rungs, curve: PlayerCurve): readonly number[] {
  const steps = stepsOf(rule, rungs, curve);
  const states = reached(steps, startState(rule, rungs));
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

function settledOver(visits: readonly number[], bpms: Rungs, curve: PlayerCurve): Settling {
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

/**
 * The exact long run of a rule (`checkRule` must have nothing to say about it) with a player who neither
 * learns nor tires. Of the order 'alternate' only the repetitions at tempo are counted: the slow ones in
 * between move nothing.
 */
export function settlingOf(rule: LadderRule, curve: PlayerCurve): Settling {
  const rungs = rungsOf(rule);
  return settledOver(longRun(rule, rungs, curve), rungs, curve);
}

/** Repetitions in half an hour on one line: two bars, a count-in, a breath and a mark take some 18 seconds. */
export const IN_HALF_AN_HOUR = 100;

/**
 * What the first so many repetitions from the start rung come to, exactly. Those before `after` are left out: from
 * there on one sees whether the long run has been reached.
 */
export function firstRepetitions(rule: LadderRule, curve: PlayerCurve, repetitions: number, after = 0): Settling {
  const rungs = rungsOf(rule);
  const steps = stepsOf(rule, rungs, curve);
  const visits = rungs.map(() => 0);
  let now = new Float64Array(steps.length);
  now[startState(rule, rungs)] = 1;
  for (let n = 0; n < repetitions; n += 1) {
    const next = new Float64Array(steps.length);
    now.forEach((chance, state) => {
      if (chance === 0) return;
      if (n >= after) visits[placeOf(rule, state).rung]! += chance / (repetitions - after);
      for (const [to, p] of steps[state]!) next[to]! += chance * p;
    });
    now = next;
  }
  return settledOver(visits, rungs, curve);
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
  return expectedStepsToLeave(chainOf(steps), leave)[indexOf(rule, first, NO_RUN)]!;
}

/** 'about 8 of 10' */
const ofTen = (share: number): string => `${Math.round(share * 10)} of 10`;

/**
 * One sentence for a settings screen, true of a sitting as well as of the limit: 'About 8 of 10 clean in half an hour;
 * in the long run 7.'
 */
export function settlingSentence(rule: LadderRule, curve: PlayerCurve): string {
  if (rule.aim !== null) return `About ${ofTen(rule.aim)} clean from the first half hour on: the rule aims at it.`;
  if (chainStates(rule) > MOST_STATES) return 'This ladder has too many rungs to say where it settles.';
  const soon = ofTen(firstRepetitions(rule, curve, IN_HALF_AN_HOUR).marks.clean);
  const late = ofTen(settlingOf(rule, curve).marks.clean);
  return soon === late
    ? `About ${soon} clean, in half an hour and in the long run.`
    : `About ${soon} clean in half an hour; in the long run ${late.split(' ')[0]}.`;
}
