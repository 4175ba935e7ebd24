/** Some days of a simulated player, with drift, learning and fatigue: `--simulate`. */
import { seeded } from '../../../common/chance.ts';
import type { LadderRule } from '../../../ladder/rule/ladder-rule.ts';
import { tempoChart } from '../../../ladder/settling/settling-chart.ts';
import type { PlayerCurve } from '../../../ladder/settling/player-curve.ts';
import { LIVELY, simulateDays } from '../../../ladder/settling/simulated-player.ts';
import { bpmText } from '../../../music/time/tempo-text.ts';
import { plural } from '../../output/plural.ts';
import { type LadderOptions, countOf, numberOf } from './ladder-options.ts';

export interface SimulatedDays {
  readonly days: number;
  readonly marks: readonly { readonly bpm: number; readonly mark: string }[];
  readonly best: number | null;
  readonly seed: number;
}

/** Refused when wrong, even where nothing is left to chance. */
export const seedOf = ({ seed }: LadderOptions): number => numberOf(seed, 'seed', { right: 'a number' });

/** Null when no simulation was asked for. */
export function simulatedDays(options: LadderOptions, rule: LadderRule, curve: PlayerCurve): SimulatedDays | null {
  if (options.simulate === undefined) return null;
  const repetitions = countOf(options.simulate, 'simulate', 1000);
  const days = countOf(options.days, 'days', 1000);
  const seed = seedOf(options);
  const player = { ...LIVELY, ceiling: curve.threshold * 1.3 };
  const { climb, marks } = simulateDays(curve, player, rule, days, repetitions, seeded(seed));
  return { days, marks, best: climb.best, seed };
}

export function simulatedText({ days, marks, best, seed }: SimulatedDays): string {
  const clean = marks.filter(({ mark }) => mark === 'clean').length / marks.length;
  const held = best === null ? 'no rung held' : `best ${bpmText(best)}`;
  return [
    `Simulated (seed ${seed}): ${marks.length} repetitions in ${plural(days, 'day')}, by chance, ` +
      'with drift, learning and fatigue.',
    `${Math.round(clean * 100)} % clean, ${held}.`,
    '',
    tempoChart(marks.map(({ bpm }) => bpm)),
  ].join('\n');
}
