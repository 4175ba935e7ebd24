/** The ladder's rule and where it settles, in plain sentences. */
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Bpm } from '../../common/units.ts';
import type { MarkChances, PlayerCurve } from './player-curve.ts';
import type { LadderRule } from '../rule/ladder-rule.ts';
import { IN_HALF_AN_HOUR, type Settling, firstRepetitions, settlingSentence } from './settling-tempo.ts';

/** `percent(0.794)` is '79 %'. */
export const percent = (share: number): string => `${Math.round(share * 100)} %`;
const times = (n: number, of: string): string => `${n} ${of} repetition${n === 1 ? '' : 's'}`;

function stepText({ step }: LadderRule): string {
  if (step.by === 'marks') return 'the traditional metronome marks';
  return step.by === 'ratio' ? `steps of ${step.percent} %` : `steps of ${bpmText(step.bpm)} beats per minute`;
}

const rungsText = (n: number): string => (n === 1 ? 'one rung' : `${n} rungs`);

const inARow = (n: number): string => (n > 1 ? ' in a row' : '');

/** ' or one rung after 2 tense in a row' */
const tenseText = ({ tenseDown }: LadderRule): string =>
  tenseDown === null ? '' : ` or one rung after ${tenseDown} tense${inARow(tenseDown)}`;

const countText = (rule: LadderRule): string =>
  `Up ${rungsText(rule.rungsUp)} after ${times(rule.cleanUp, 'clean')}${inARow(rule.cleanUp)}, ` +
  `down ${rungsText(rule.rungsDown)} after ${rule.missedDown} missed${inARow(rule.missedDown)}${tenseText(rule)}`;

const aimText = ({ cleanUp }: LadderRule, aim: number): string =>
  `Aims at ${percent(aim)} clean: after each mark the highest rung at which your marks let expect that share, two ` +
  `rungs at most at once, up only after a clean one, and ${cleanUp} clean${inARow(cleanUp)} hold a rung`;

/**
 * 'Up one rung after 3 clean repetitions in a row, down one rung after 1 missed or one rung after 2 tense in a row;
 * steps of 3 %, 40 to 240.'
 */
export const ruleText = (rule: LadderRule): string =>
  `${rule.aim === null ? countText(rule) : aimText(rule, rule.aim)}; ` +
  `${stepText(rule)}, ${bpmText(rule.floor)} to ${bpmText(rule.top)}.`;

export const curveText = ({ threshold, slope, lapse, tense }: PlayerCurve): string =>
  `A player who is clean half of the time at ${bpmText(threshold)}; slope ${slope}, lapses ${percent(lapse)}, ` +
  `of what is not clean ${percent(tense)} tense.`;

export function settlingText(rule: LadderRule, curve: PlayerCurve, settling: Settling): string {
  const { tempo, low, high, marks, spread } = settling;
  return [
    settlingSentence(rule, curve),
    `In the long run: mean tempo ${bpmText(Math.round(tempo * 10) / 10)}, give or take ` +
      `${Math.round(spread * 1000) / 10} %; 8 of 10 repetitions from ${bpmText(low)} to ${bpmText(high)}.`,
    `Of 100 repetitions ${marksText(marks)}.`,
    soonText(rule, curve),
    ...slowText(rule, curve, settling),
  ].join('\n');
}

/** '79 are clean, 0 tense, 21 missed' */
const marksText = ({ clean, tense, missed }: MarkChances): string =>
  `${Math.round(clean * 100)} are clean, ${Math.round(tense * 100)} tense, ${Math.round(missed * 100)} missed`;

/** What a sitting of ordinary length is like. */
const soonText = (rule: LadderRule, curve: PlayerCurve): string =>
  `Of the first ${IN_HALF_AN_HOUR} from ${bpmText(rule.start)}, about half an hour, ` +
  `${marksText(firstRepetitions(rule, curve, IN_HALF_AN_HOUR).marks)}.`;

/** Repetitions after which somebody who begins on the start rung should have met the long run; weeks of a line. */
const LONG = 2000;

/**
 * Moves of several rungs both ways leave rungs out, and only an end of the ladder lets them in: then the long run is
 * none that anybody meets, and what is met from the start rung is said.
 */
function slowText(rule: LadderRule, curve: PlayerCurve, settling: Settling): readonly string[] {
  const met = firstRepetitions(rule, curve, LONG, LONG / 2);
  const apart = met.rungs.reduce((sum, { share }, i) => sum + Math.abs(share - (settling.rungs[i]?.share ?? share)), 0);
  if (apart < 0.2) return [];
  const rungs = met.rungs.filter(({ share }) => share >= 0.05).map(({ bpm }) => bpmText(bpm));
  return [
    `These moves leave rungs out. From ${bpmText(rule.start)} you meet ${rungs.join(', ')}, and after ${LONG} ` +
      `repetitions hardly any other: mean tempo ${bpmText(Math.round(met.tempo * 10) / 10)}, and of 100 ` +
      `${marksText(met.marks)}.`,
  ];
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
