/** The ladder's rule that the options of `standside ladder` describe. */
import { DEFAULT_RULE, type LadderRule, type RungStep } from '../../../ladder/rule/ladder-rule.ts';
import { checkRule } from '../../../ladder/rule/rule-check.ts';
import { wholeNumber } from '../../options/number-option.ts';
import { type LadderOptions, countOf, numberOf, refuse } from './ladder-options.ts';

/** A bare number is beats per minute, as in a routine file. */
function stepOf(text: string): RungStep {
  if (text === 'marks') return { by: 'marks' };
  const [, number, unit] = /^\s*(-?[\d.]+)\s*(%|bpm|)\s*$/u.exec(text) ?? [];
  if (number === undefined || !Number.isFinite(Number(number))) {
    return refuse(
      `--step is '${text}'; say 3% for equal ratios, 2 or 2bpm for beats per minute, or marks for the metronome marks.`,
    );
  }
  return unit === '%' ? { by: 'ratio', percent: Number(number) } : { by: 'beats', bpm: Number(number) };
}

/** @throws Trouble for what is neither such a number nor 'never'. */
const tenseDownOf = (text: string): number =>
  numberOf(text, 'tense-down', { ...wholeNumber(1, 20), right: 'a whole number from 1 to 20, or never' });

/** @throws Trouble for a rule that no ladder can have. */
export function ruleOf(options: LadderOptions): LadderRule {
  const bpm = { right: 'a tempo in beats per minute' };
  const floor = numberOf(options.floor, 'floor', bpm);
  const top = numberOf(options.top, 'top', bpm);
  const inside = (tempo: number): number => Math.min(Math.max(tempo, floor), top);
  const rule: LadderRule = {
    ...DEFAULT_RULE,
    cleanUp: countOf(options.up, 'up', 20),
    missedDown: countOf(options.down, 'down', 20),
    tenseDown: options.tenseDown === 'never' ? null : tenseDownOf(options.tenseDown),
    rungsUp: countOf(options.rungsUp, 'rungs-up', 10),
    rungsDown: countOf(options.rungsDown, 'rungs-down', 10),
    step: stepOf(options.step),
    floor,
    top,
    start: inside(DEFAULT_RULE.start),
    target: inside(DEFAULT_RULE.target),
  };
  const [wrong] = checkRule(rule);
  return wrong === undefined ? rule : refuse(wrong);
}

/** A tempo between the ladder's ends. */
export function tempoOf(text: string, option: string, { floor, top }: LadderRule): number {
  const right = `a tempo on the ladder, from ${floor} to ${top}`;
  const bpm = numberOf(text, option, { right });
  return bpm >= floor && bpm <= top ? bpm : refuse(`--${option} is ${text}; it must be ${right}.`);
}
