/** The player whom the options of `standside ladder` describe. */
import type { LadderRule } from '../../../ladder/rule/ladder-rule.ts';
import type { PlayerCurve } from '../../../ladder/settling/player-curve.ts';
import { type LadderOptions, numberOf, refuse } from './ladder-options.ts';
import { tempoOf } from './rule-option.ts';

/** '3%' or '0.03'. */
function shareOf(text: string, option: string, most: number): number {
  const right = `a share from 0 to ${most * 100} %, such as 2%`;
  const word = text.trim();
  const value = word.endsWith('%')
    ? numberOf(word.slice(0, -1), option, { right }) / 100
    : numberOf(text, option, { right });
  return value >= 0 && value <= most ? value : refuse(`--${option} is '${text}'; it must be ${right}.`);
}

function slopeOf(text: string): number {
  const slope = numberOf(text, 'slope', { right: 'a number from 1 to 100' });
  if (slope >= 1 && slope <= 100) return slope;
  return refuse(`--slope is ${text}; it must be from 1 (gentle) to 100 (sudden), and 12 is usual.`);
}

export function curveOf(options: LadderOptions, rule: LadderRule): PlayerCurve {
  const slope = slopeOf(options.slope);
  return {
    threshold: tempoOf(options.threshold, 'threshold', rule),
    slope,
    lapse: shareOf(options.lapse, 'lapse', 0.5),
    tense: shareOf(options.tense, 'tense', 0.9),
  };
}
