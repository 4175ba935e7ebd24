/** The ladder's rule and where it settles, in plain sentences. */
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Bpm } from '../../common/units.ts';
import type { PlayerCurve } from './player-curve.ts';
import type { LadderRule } from '../rule/ladder-rule.ts';
import { type Settling, settlingSentence } from './settling-tempo.ts';

/** `percent(0.794)` is '79 %'. */
export const percent = (share: number): string => `${Math.round(share * 100)} %`;
const times = (n: number, of: string): string => `${n} ${of} repetition${n === 1 ? '' : 's'}`;

function stepText({ step }: LadderRule): string {
  if (step.by === 'marks') return 'the traditional metronome marks';
  return step.by === 'ratio' ? `steps of ${step.percent} %` : `steps of ${bpmText(step.bpm)} beats per minute`;
}

const rungsText = (n: number): string => (n === 1 ? 'one rung' : `${n} rungs`);

/** 'Up one rung after 3 clean repetitions in a row, down one rung after 2 missed in a row; steps of 3 %, 40 to 240.' */
export const ruleText = (rule: LadderRule): string =>
  `Up ${rungsText(rule.rungsUp)} after ${times(rule.cleanUp, 'clean')}${rule.cleanUp > 1 ? ' in a row' : ''}, ` +
  `down ${rungsText(rule.rungsDown)} after ${rule.missedDown} missed${rule.missedDown > 1 ? ' in a row' : ''}; ` +
  `${stepText(rule)}, ${bpmText(rule.floor)} to ${bpmText(rule.top)}.`;

export const curveText = ({ threshold, slope, lapse, tense }: PlayerCurve): string =>
  `A player who is clean half of the time at ${bpmText(threshold)}; slope ${slope}, lapses ${percent(lapse)}, ` +
  `of what is not clean ${percent(tense)} tense.`;

export function settlingText(rule: LadderRule, curve: PlayerCurve, settling: Settling): string {
  const { tempo, low, high, marks, spread } = settling;
  return [
    settlingSentence(rule, curve),
    `Mean tempo ${bpmText(Math.round(tempo * 10) / 10)}, give or take ${Math.round(spread * 1000) / 10} %; 8 of ` +
      `10 repetitions from ${bpmText(low)} to ${bpmText(high)}.`,
    `Of 100 repetitions ${Math.round(marks.clean * 100)} are clean, ${Math.round(marks.tense * 100)} tense, ` +
      `${Math.round(marks.missed * 100)} missed.`,
  ].join('\n');
}

/** What the reckoning leaves out, in a sentence of its own. */
export const ALTERNATION_REMARK =
  'Reckoned for the ladder alone. With the order ‘alternate’ the slow repetitions in between move nothing: it ' +
  'settles at the same tempo, with twice as many repetitions.';

/** More than this nobody plays. */
const NEVER = 1e6;

export function climbText(from: Bpm, to: Bpm, repetitions: number): string {
  const way = `From ${bpmText(from)} to ${bpmText(to)}`;
  if (repetitions === 0) return `${way}: nothing to climb.`;
  if (repetitions > NEVER) return `${way}: practically never, for a player who does not get better.`;
  return `${way}: about ${Math.round(repetitions)} repetitions, for a player who does not get better.`;
}
