/** The ladder and its settling as plain text. */
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Bpm } from '../../common/units.ts';
import type { Curve } from './player-curve.ts';
import type { LadderRule } from '../rule/ladder-rule.ts';
import { type RungShare, type Settling, settlingSentence } from './settling-tempo.ts';

const RUNG = 30;
/** Rungs where less than this of all repetitions is played are left out. */
const SHOWN = 0.004;

const percent = (share: number): string => `${Math.round(share * 100)} %`;
const times = (n: number, of: string): string => `${n} ${of} repetition${n === 1 ? '' : 's'}`;

function stepText({ step }: LadderRule): string {
  if (step.by === 'marks') return 'the traditional metronome marks';
  return step.by === 'ratio' ? `steps of ${step.percent} %` : `steps of ${bpmText(step.bpm)} beats per minute`;
}

const rungsText = (n: number): string => (n === 1 ? 'one rung' : `${n} rungs`);

/** 'Up one rung after 3 clean repetitions in a row, down one rung after 2 missed ones; steps of 3 %, 40 to 240.' */
export const ruleText = (rule: LadderRule): string =>
  `Up ${rungsText(rule.rungsUp)} after ${times(rule.cleanUp, 'clean')}${rule.cleanUp > 1 ? ' in a row' : ''}, ` +
  `down ${rungsText(rule.rungsDown)} after ${rule.missedDown} missed${rule.missedDown > 1 ? ' in a row' : ''}; ` +
  `${stepText(rule)}, ${bpmText(rule.floor)} to ${bpmText(rule.top)}.`;

export const curveText = ({ threshold, slope, lapse, tense }: Curve): string =>
  `A player who is clean half of the time at ${bpmText(threshold)}; slope ${slope}, lapses ${percent(lapse)}, ` +
  `of what is not clean ${percent(tense)} tense.`;

function rungLine({ bpm, share, clean }: RungShare, most: number, note: string): string {
  const length = Math.max(1, Math.round((share / most) * RUNG));
  const rung = '━'.repeat(length).padEnd(RUNG);
  return `${bpmText(bpm).padStart(7)} │${rung}│ ${percent(clean).padStart(5)} clean ${note}`.trimEnd();
}

/** Fastest on top; a rung is as long as the share of repetitions played on it. */
export function drawnLadder({ rungs, tempo }: Settling): string {
  const shown = rungs.filter(({ share }) => share >= SHOWN).toReversed();
  const most = Math.max(...shown.map(({ share }) => share));
  const distance = ({ bpm }: RungShare): number => Math.abs(Math.log(bpm / tempo));
  const settled = shown.reduce((a, b) => (distance(b) < distance(a) ? b : a));
  return shown.map((rung) => rungLine(rung, most, rung === settled ? '← settles here' : '')).join('\n');
}

export function settlingText(rule: LadderRule, curve: Curve, settling: Settling): string {
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
export const SCOPE =
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

const TRACE_COLUMNS = 64;
const TRACE_ROWS = 16;

/** Where the ladder went: time to the right, tempo upwards, each column the mean of its repetitions. */
export function drawnTrace(bpms: readonly Bpm[]): string {
  const columns = Math.min(TRACE_COLUMNS, bpms.length);
  const means = Array.from({ length: columns }, (_, i) => {
    const part = bpms.slice(Math.floor((i * bpms.length) / columns), Math.floor(((i + 1) * bpms.length) / columns));
    return Math.log(part.reduce((sum, bpm) => sum + bpm, 0) / part.length);
  });
  const [low, high] = [Math.min(...means), Math.max(...means)];
  const rows = high > low ? TRACE_ROWS : 1;
  const rowOf = (mean: number): number => (rows === 1 ? 0 : Math.round(((mean - low) / (high - low)) * (rows - 1)));
  return Array.from({ length: rows }, (_, i) => {
    const row = rows - 1 - i;
    const bpm = Math.exp(low + ((high - low) * row) / Math.max(rows - 1, 1));
    return `${bpmText(Math.round(bpm)).padStart(7)} │${means
      .map((mean) => (rowOf(mean) === row ? '•' : ' '))
      .join('')
      .trimEnd()}`;
  }).join('\n');
}
