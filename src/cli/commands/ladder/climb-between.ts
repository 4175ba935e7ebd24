/** How many repetitions a climb from one rung to another takes: `--from` and `--to`. */
import type { LadderRule } from '../../../ladder/rule/ladder-rule.ts';
import { nearestRung, rungsOf } from '../../../ladder/rule/rungs.ts';
import { climbText } from '../../../ladder/settling/settling-text.ts';
import type { PlayerCurve } from '../../../ladder/settling/player-curve.ts';
import { repetitionsBetween } from '../../../ladder/settling/settling-tempo.ts';
import type { LadderOptions } from './ladder-options.ts';
import { tempoOf } from './rule-option.ts';

export interface ClimbBetween {
  readonly from: number;
  readonly to: number;
  /** Infinity where the rule practically never gets there. */
  readonly repetitions: number;
}

/** Null when neither end was asked for. */
export function climbBetween({ from, to }: LadderOptions, rule: LadderRule, curve: PlayerCurve): ClimbBetween | null {
  if (from === undefined && to === undefined) return null;
  const rungs = rungsOf(rule);
  const rung = (text: string, option: string): number => {
    const bpm = tempoOf(text, option, rule);
    return rungs[nearestRung(rungs, bpm)] ?? bpm;
  };
  const ends = { from: rung(from ?? `${rule.start}`, 'from'), to: rung(to ?? `${rule.target}`, 'to') };
  return { ...ends, repetitions: repetitionsBetween(rule, curve, ends.from, ends.to) };
}

const isMoved = (asked: string | undefined, rung: number): boolean => asked !== undefined && Number(asked) !== rung;

/** Tempos that were asked for and are no rungs have been moved to the nearest. */
export function climbSentence({ from, to }: LadderOptions, climb: ClimbBetween): string {
  const moved = isMoved(from, climb.from) || isMoved(to, climb.to) ? ' These are the nearest rungs.' : '';
  return climbText(climb.from, climb.to, climb.repetitions) + moved;
}

/** JSON has no infinity: null is never. */
export const climbJson = ({ from, to, repetitions }: ClimbBetween): object => ({
  from,
  to,
  repetitions: Number.isFinite(repetitions) ? repetitions : null,
});
