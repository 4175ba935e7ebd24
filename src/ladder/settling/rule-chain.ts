/**
 * A rule and a player as a Markov chain. It is made by asking the rule itself what each mark does, so it cannot differ
 * from what is practised. Its states are (rung, and the run of clean, missed or tense repetitions at it).
 */
import { type Climb, afterMark } from '../rule/climb.ts';
import type { LadderRule, Mark } from '../rule/ladder-rule.ts';
import { type Rungs, nearestRung, rungsOf } from '../rule/rungs.ts';
import type { Transition } from './markov-chain.ts';
import { type PlayerCurve, markChances } from './player-curve.ts';

interface Place {
  readonly rung: number;
  readonly cleanRun: number;
  readonly missedRun: number;
  readonly tenseRun: number;
}

const MARKS: readonly Mark[] = ['clean', 'tense', 'missed'];

/** Tense in a row that are counted; where they only hold the rung, none is. */
const tenseRuns = ({ tenseDown }: LadderRule): number => (tenseDown ?? 1) - 1;

/** How many states one rung has: no run, each run of clean, of missed, of tense. */
export const statesPerRung = (rule: LadderRule): number => rule.cleanUp + rule.missedDown - 1 + tenseRuns(rule);

export const chainStates = (rule: LadderRule): number => rungsOf(rule).length * statesPerRung(rule);

function runIndex(
  { cleanUp, missedDown }: LadderRule,
  { cleanRun, missedRun, tenseRun = 0 }: Omit<Climb, 'bpm'>,
): number {
  if (tenseRun > 0) return cleanUp + missedDown - 2 + tenseRun;
  return missedRun > 0 ? cleanUp - 1 + missedRun : cleanRun;
}

export const indexOf = (rule: LadderRule, rung: number, climb: Omit<Climb, 'bpm'>): number =>
  rung * statesPerRung(rule) + runIndex(rule, climb);

export function placeOf(rule: LadderRule, index: number): Place {
  const { cleanUp, missedDown } = rule;
  const rung = Math.floor(index / statesPerRung(rule));
  const run = index % statesPerRung(rule);
  if (run < cleanUp) return { rung, cleanRun: run, missedRun: 0, tenseRun: 0 };
  const beyond = run - cleanUp + 1;
  return beyond < missedDown
    ? { rung, cleanRun: 0, missedRun: beyond, tenseRun: 0 }
    : { rung, cleanRun: 0, missedRun: 0, tenseRun: beyond - missedDown + 1 };
}

export const NO_RUN = { cleanRun: 0, missedRun: 0, best: null };

/** From each state, where each mark leads and how likely it is. */
export function stepsOf(rule: LadderRule, rungs: Rungs, curve: PlayerCurve): readonly (readonly Transition[])[] {
  const rungAt = new Map(rungs.map((bpm, rung) => [bpm, rung]));
  const chances = rungs.map((bpm) => markChances(curve, bpm));
  return Array.from({ length: rungs.length * statesPerRung(rule) }, (_, index) => {
    const { rung, ...runs } = placeOf(rule, index);
    return MARKS.map((mark): Transition => {
      const next = afterMark({ bpm: rungs[rung]!, ...runs, best: null }, mark, rule, rungs);
      return [indexOf(rule, rungAt.get(next.bpm)!, next), chances[rung]![mark]];
    });
  });
}

/** The state that a line without marks begins in. */
export const startState = (rule: LadderRule, rungs: Rungs): number =>
  indexOf(rule, nearestRung(rungs, rule.start), NO_RUN);
