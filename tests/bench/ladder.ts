/** Figures of the ladder's reckoning. Data is simulated; only the time is real. */
import { seeded } from '../../src/common/chance.ts';
import { startAt } from '../../src/ladder/rule/climb.ts';
import { beliefFrom, markingOf } from '../../src/ladder/speed/speed-estimate.ts';
import { type Tally } from '../../src/ladder/speed/line-history.ts';
import { type PlayedLine, learnAllLines, learnLineAgain } from '../../src/ladder/speed/speed-knowledge.ts';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { settlingOf } from '../../src/ladder/settling/settling-tempo.ts';
import { LIVELY, nextDay, simulatedPlayer, playLadder } from '../../src/ladder/settling/simulated-player.ts';
import { dateOf } from '../../src/common/days.ts';
import { afterMarks, historyOf, talliesOf, type Played } from '../ladder/histories.ts';

export interface BenchRow {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** What the value should stay under; null where there is no target. */
  readonly target: number | null;
}

const RUNGS = rungsOf(DEFAULT_RULE);
const TODAY = 20_000;

/** Days of ten repetitions on the ladder. */
function days(count: number, seed: number): readonly (readonly Played[])[] {
  const chance = seeded(seed);
  const curve = { threshold: 80 + 60 * chance(), slope: 14, lapse: 0.02, tense: 0.3 };
  let player = simulatedPlayer(curve, LIVELY);
  let climb = startAt(RUNGS.findLast((rung) => rung < curve.threshold * 0.8) ?? RUNGS[0]!);
  return Array.from({ length: count }, () => {
    player = nextDay(player, chance);
    const sitting = playLadder(player, climb, DEFAULT_RULE, RUNGS, 10, chance);
    ({ player, climb } = sitting);
    return sitting.marks;
  });
}

/** The median of several runs, in milliseconds. */
function timed(runs: number, task: () => void): number {
  const times = Array.from({ length: runs }, () => {
    const from = performance.now();
    task();
    return performance.now() - from;
  });
  return times.sort((a, b) => a - b)[runs >> 1]!;
}

const lineOf = (i: number): PlayedLine['line'] => ({
  exercise: `exercise-${i % 10}`,
  articulation: ['slurred', 'single', 'double', 'triple'][((i / 10) % 4) | 0]!,
  key: `key-${(i / 40) | 0}`,
});

/** 400 lines, 500 marks each, spread over ten years. */
const tenYears = (): readonly PlayedLine[] =>
  Array.from({ length: 400 }, (_, i) => {
    const history = historyOf(lineOf(i), days(50, i), TODAY);
    const tallies: Tally[] = days(50, i).flatMap((marks, day) => [
      ...talliesOf(dateOf(TODAY - (49 - day) * 73), marks),
    ]);
    return { ...history, tallies, lastDay: tallies.at(-1)!.day };
  });

export function benchLadder(): readonly BenchRow[] {
  const marking = markingOf(0.3);
  const long = days(500, 7);
  const tallies = long.flatMap((marks, day) => talliesOf(dateOf(TODAY - 499 + day), marks));
  const known = beliefFrom(marking, tallies);
  const lines = tenYears();
  const all = learnAllLines(lines);
  const mark = { day: TODAY, bpm: 100, mark: 'clean' as const };
  return [
    {
      name: 'estimate of one line from 5,000 marks in 500 days',
      value: timed(15, () => beliefFrom(marking, tallies)),
      unit: 'ms',
      target: 10,
    },
    {
      name: 'estimate after one more mark',
      value: timed(51, () => afterMarks(marking, known, [mark])),
      unit: 'ms',
      target: 1,
    },
    {
      name: 'all lines of ten years, 200,000 marks on 400 lines',
      value: timed(3, () => learnAllLines(lines)),
      unit: 'ms',
      target: 2000,
    },
    {
      name: 'the same after one more mark',
      value: timed(15, () => learnLineAgain(all, lines[0]!)),
      unit: 'ms',
      target: 10,
    },
    {
      name: 'exact settling of the default rule',
      value: timed(9, () => settlingOf(DEFAULT_RULE, { threshold: 120, slope: 12, lapse: 0.02, tense: 0.3 })),
      unit: 'ms',
      target: 50,
    },
  ];
}
