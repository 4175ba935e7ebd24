/**
 * Rules and starts against each other over simulated weeks: `npm run compare:rules`. The same players, with the same
 * chance, under each, and under four invented ways of learning.
 */
import { evenInLog, seeded } from '../../src/common/chance.ts';
import { type Climb, afterMark, startAt } from '../../src/ladder/rule/climb.ts';
import type { CountedMarks } from '../../src/ladder/rule/aim.ts';
import { DEFAULT_RULE, type LadderRule, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { type Rungs, nearestRung, rungsOf } from '../../src/ladder/rule/rungs.ts';
import {
  type SimulatedPlayer,
  nextDay,
  playOnce,
  simulatedPlayer,
} from '../../src/ladder/settling/simulated-player.ts';
import { outlookAfter } from '../../src/ladder/speed/clean-expected.ts';
import { type Belief, NO_BELIEF, markingOf, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { startToday } from '../../src/ladder/speed/todays-start.ts';
import { afterMarks } from '../ladder/histories.ts';
import { tempoWhereClean } from '../ladder/simulated-players.ts';
import { type LearningModel, MODELS, taught, taughtByRepetition } from './learning-models.ts';

const PLAYERS = Number(process.argv[2] ?? 40);
const WEEKS = 8;
const REPETITIONS = 24;
/** Days since the one before: five a week with a weekend between, and one lay-off of three weeks. */
const GAPS = Array.from({ length: WEEKS * 5 }, (_, i) => (i === 25 ? 21 : i % 5 === 0 && i > 0 ? 3 : 1));
const HIGHER = 1.2;
const MARKING = markingOf(0.3);

type Start = 'today' | 'later today' | '80 % of the best' | 'where the last day ended';

interface Way {
  readonly said: string;
  readonly rule: Partial<LadderRule>;
  readonly start: Start;
}

const today = (said: string, rule: Partial<LadderRule>): Way => ({ said, rule, start: 'today' });

const WAYS: readonly Way[] = [
  today('3 clean up, 2 missed down', { missedDown: 2, tenseDown: null }),
  today('3 up, 1 missed or 2 tense down', {}),
  today('2 up, 1 missed or 2 tense down', { cleanUp: 2 }),
  today('aim 75 %', { aim: 0.75 }),
  today('aim 80 %', { aim: 0.8 }),
  today('aim 85 %', { aim: 0.85 }),
  { said: '3 up, 1 down, a line later in the day', rule: {}, start: 'later today' },
  { said: '3 up, 1 down, from 80 % of the best', rule: {}, start: '80 % of the best' },
  { said: '3 up, 1 down, from where the last day ended', rule: {}, start: 'where the last day ended' },
];

/**
 * Threshold 60 to 200, slope 6 to 40, lapses to 6 %, tense to 60 %; drift 1 %, form 2 %, fatigue 0.1 % a repetition;
 * learning up to 0.15 % for a unit of the model.
 */
function somebody(seed: number): { readonly player: SimulatedPlayer; readonly rate: number } {
  const chance = seeded(seed);
  const threshold = evenInLog(chance, 60, 200);
  const curve = { threshold, slope: evenInLog(chance, 6, 40), lapse: 0.06 * chance(), tense: 0.6 * chance() };
  const rate = 0.0005 + 0.001 * chance();
  const temper = { drift: 0.01, form: 0.02, fatigue: 0.001, learning: 0, ceiling: threshold * 1.6, rust: 0.004 };
  return { player: simulatedPlayer(curve, temper), rate };
}

interface Known {
  readonly belief: Belief;
  readonly played: readonly CountedMarks[];
  readonly climb: Climb;
}

interface Line {
  readonly rule: LadderRule;
  readonly rungs: Rungs;
}

function opening({ rule, rungs }: Line, start: Start, { belief, climb }: Known, day: number): number {
  const { best } = climb;
  if (start === 'where the last day ended') return climb.bpm;
  if (start === '80 % of the best') return rungs[nearestRung(rungs, best === null ? rule.start : best * 0.8)]!;
  const warm = start === 'later today';
  return startToday({ rule, rungs, marking: MARKING, belief, prior: weakPrior(rule), best, day, warm }).bpm;
}

/** What is known after one repetition more. */
function after({ rule, rungs }: Line, known: Known, mark: Mark, day: number): Known {
  const { climb, belief, played } = known;
  const prior = weakPrior(rule);
  const outlook =
    rule.aim === null
      ? null
      : outlookAfter({ marking: MARKING, belief, prior, day, played }, [{ bpm: climb.bpm, mark }]);
  return {
    belief: afterMarks(MARKING, belief, [{ bpm: climb.bpm, mark, day }]),
    played: [...played.slice(-200), { clean: mark === 'clean' ? 1 : 0, all: 1 }],
    climb: afterMark(climb, mark, rule, rungs, outlook),
  };
}

interface Outcome {
  readonly counts: Readonly<Record<Mark, number>>;
  /** Repetitions until a rung a fifth above the first nine-in-ten tempo was held; Infinity if it never was. */
  readonly held: number;
  /** Until the nine-in-ten tempo itself was a fifth higher. */
  readonly able: number;
}

function weeksOf({ rule: own, start }: Way, model: LearningModel, seed: number): Outcome {
  const chance = seeded(seed + 1_000_000);
  let { player, rate } = somebody(seed);
  const first = tempoWhereClean(player.curve, 0.9);
  const rule: LadderRule = { ...DEFAULT_RULE, top: 400, ...own, start: Math.round(Math.max(40, first * 0.75)) };
  const line: Line = { rule, rungs: rungsOf(rule) };
  let known: Known = { belief: NO_BELIEF, played: [], climb: startAt(rule.start) };
  const counts = { clean: 0, tense: 0, missed: 0 };
  let [held, able, repetitions, day] = [Infinity, Infinity, 0, 0];
  for (const gap of GAPS) {
    day += gap;
    player = taught(nextDay(player, chance, gap), repetitions > 0 ? model.ofDay : 0, rate);
    known = { ...known, climb: startAt(opening(line, start, known, day), known.climb.best) };
    for (let n = 0; n < REPETITIONS; n += 1) {
      const { bpm } = known.climb;
      const once = playOnce(player, bpm, chance);
      player = taughtByRepetition(once.player, model, rate, bpm, once.mark);
      counts[once.mark] += 1;
      repetitions += 1;
      known = after(line, known, once.mark, day);
      if (held === Infinity && (known.climb.best ?? 0) >= first * HIGHER) held = repetitions;
      if (able === Infinity && tempoWhereClean(player.curve, 0.9) >= first * HIGHER) able = repetitions;
    }
  }
  return { counts, held, able };
}

const median = (numbers: readonly number[]): number =>
  numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? Infinity;

const repetitionsText = (count: number): string =>
  Number.isFinite(count) ? `${count}` : `over ${GAPS.length * REPETITIONS}`;

function row({ said }: Way, outcomes: readonly Outcome[]): string {
  const all = outcomes.length * GAPS.length * REPETITIONS;
  const share = (mark: Mark): string =>
    `${((100 * outcomes.reduce((sum, { counts }) => sum + counts[mark], 0)) / all).toFixed(0)} %`;
  const [held, able] = [median(outcomes.map((one) => one.held)), median(outcomes.map((one) => one.able))];
  const shares = (['clean', 'tense', 'missed'] as const).map(share).join(' | ');
  return `| ${said} | ${repetitionsText(held)} | ${repetitionsText(able)} | ${shares} |`;
}

function table(model: LearningModel): string {
  const outcomes = (way: Way) => Array.from({ length: PLAYERS }, (_, seed) => weeksOf(way, model, seed));
  return [
    `Learning: ${model.said}.\n`,
    '| rule | repetitions until a fifth higher is held | until it is nine in ten | clean | tense | missed |',
    '| --- | --- | --- | --- | --- | --- |',
    ...WAYS.map((way) => row(way, outcomes(way))),
    '',
  ].join('\n');
}

const chosen =
  process.argv[3] === undefined ? MODELS : MODELS.slice(Number(process.argv[3]), Number(process.argv[3]) + 1);
for (const model of chosen) process.stdout.write(`${table(model)}\n`);
