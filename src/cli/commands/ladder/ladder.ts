import type { LadderRule } from '../../../ladder/rule/ladder-rule.ts';
import { ALTERNATION_REMARK, curveText, ruleText, settlingText } from '../../../ladder/settling/settling-text.ts';
import { sharesChart } from '../../../ladder/settling/settling-chart.ts';
import type { PlayerCurve } from '../../../ladder/settling/player-curve.ts';
import { type Settling, settlingOf, settlingSentence } from '../../../ladder/settling/settling-tempo.ts';
import { printJson, printText } from '../../output/print.ts';
import { type ClimbBetween, climbBetween, climbJson, climbSentence } from './climb-between.ts';
import { type LadderOptions } from './ladder-options.ts';
import { curveOf } from './player-option.ts';
import { ruleOf } from './rule-option.ts';
import { type SimulatedDays, seedOf, simulatedDays, simulatedText } from './simulated-days.ts';

interface Answer {
  readonly rule: LadderRule;
  readonly curve: PlayerCurve;
  readonly settling: Settling;
  readonly climb: ClimbBetween | null;
  readonly simulated: SimulatedDays | null;
}

/** @throws Trouble for every option that is wrong. */
function answerTo(options: LadderOptions): Answer {
  const rule = ruleOf(options);
  seedOf(options);
  const curve = curveOf(options, rule);
  return {
    rule,
    curve,
    settling: settlingOf(rule, curve),
    climb: climbBetween(options, rule, curve),
    simulated: simulatedDays(options, rule, curve),
  };
}

const answerJson = ({ rule, curve, settling, climb, simulated }: Answer): object => ({
  sentence: settlingSentence(rule, curve),
  order: 'climb',
  rule,
  curve,
  settling,
  climb: climb && climbJson(climb),
  simulated,
});

const answerText = (options: LadderOptions, { rule, curve, settling, climb, simulated }: Answer): string =>
  [
    `${ruleText(rule)}\n${curveText(curve)}`,
    sharesChart(settling),
    settlingText(rule, curve, settling) + (climb ? `\n${climbSentence(options, climb)}` : ''),
    ALTERNATION_REMARK,
    ...(simulated ? [simulatedText(simulated)] : []),
  ].join('\n\n');

export function ladder(options: LadderOptions): void {
  const answer = answerTo(options);
  if (options.json) printJson(answerJson(answer));
  else printText(`${answerText(options, answer)}\n`);
}
