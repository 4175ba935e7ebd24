/** A player made of chance: to try rules and estimates on, never to judge a person by. */
import type { Bpm } from '../../common/units.ts';
import { type Chance, normal } from '../../common/chance.ts';
import { type Climb, afterMark, startAt } from '../rule/climb.ts';
import { type PlayerCurve, markChances } from './player-curve.ts';
import type { LadderRule, Mark } from '../rule/ladder-rule.ts';
import { type Rungs, nearestRung, rungsOf } from '../rule/rungs.ts';

/** How a simulated player changes. All of it as shares of the tempo: 0.01 is 1 %. */
export interface Variability {
  /** Standard deviation of the speed's wandering from each day to the next; it stays. */
  readonly drift: number;
  /** Standard deviation of a day's form; it is gone the day after. */
  readonly form: number;
  /** Gained at the threshold by each clean repetition above four fifths of it, less and less towards `ceiling`. */
  readonly learning: number;
  /** The threshold that learning cannot pass. */
  readonly ceiling: Bpm;
  /** Lost by each repetition until the end of the day. */
  readonly fatigue: number;
  /** Lost by each day without practice, up to 30 days. */
  readonly rust: number;
}

const STEADY: Variability = { drift: 0, form: 0, learning: 0, ceiling: 400, fatigue: 0, rust: 0 };

/** Rough and invented: enough to move things, tied to no study. */
export const LIVELY: Variability = {
  drift: 0.008,
  form: 0.02,
  learning: 0.0015,
  ceiling: 200,
  fatigue: 0.001,
  rust: 0.004,
};

export interface SimulatedPlayer {
  readonly curve: PlayerCurve;
  readonly variability: Variability;
  /** Today's form, natural log. */
  readonly form: number;
  /** Repetitions so far today. */
  readonly today: number;
}

export const simulatedPlayer = (curve: PlayerCurve, variability: Variability = STEADY): SimulatedPlayer => ({
  curve,
  variability,
  form: 0,
  today: 0,
});

const withThreshold = (curve: PlayerCurve, factor: number): PlayerCurve => ({
  ...curve,
  threshold: curve.threshold * factor,
});

/** The curve as it is at this moment, form and fatigue counted. */
const curveNow = ({ curve, variability, form, today }: SimulatedPlayer): PlayerCurve =>
  withThreshold(curve, Math.exp(form - variability.fatigue * today));

/** The player after a night, or after `days` of them. */
export function nextDay(player: SimulatedPlayer, chance: Chance, days = 1): SimulatedPlayer {
  const { curve, variability } = player;
  const wander = variability.drift * Math.sqrt(days) * normal(chance);
  const rust = variability.rust * Math.min(days - 1, 30);
  return {
    ...player,
    curve: withThreshold(curve, Math.exp(wander - rust)),
    form: variability.form * normal(chance),
    today: 0,
  };
}

function curveAfter({ curve, variability }: SimulatedPlayer, bpm: Bpm, mark: Mark): PlayerCurve {
  const near = bpm > curve.threshold * 0.8;
  const room = Math.max(0, Math.log(variability.ceiling / curve.threshold));
  return mark === 'clean' && near ? withThreshold(curve, 1 + variability.learning * Math.min(1, room)) : curve;
}

function markByChance(curve: PlayerCurve, bpm: Bpm, chance: Chance): Mark {
  const { clean, tense } = markChances(curve, bpm);
  const u = chance();
  if (u < clean) return 'clean';
  return u < clean + tense ? 'tense' : 'missed';
}

/** One repetition: its mark, and the player after it. */
export function playOnce(player: SimulatedPlayer, bpm: Bpm, chance: Chance): { mark: Mark; player: SimulatedPlayer } {
  const mark = markByChance(curveNow(player), bpm, chance);
  return { mark, player: { ...player, curve: curveAfter(player, bpm, mark), today: player.today + 1 } };
}

export interface LadderRun {
  readonly player: SimulatedPlayer;
  readonly climb: Climb;
  readonly marks: readonly { readonly bpm: Bpm; readonly mark: Mark }[];
}

/** So many repetitions on the ladder, one after another. */
export function playLadder(
  player: SimulatedPlayer,
  climb: Climb,
  rule: LadderRule,
  rungs: Rungs,
  repetitions: number,
  chance: Chance,
): LadderRun {
  let now: LadderRun = { player, climb, marks: [] };
  const marks: { bpm: Bpm; mark: Mark }[] = [];
  for (let i = 0; i < repetitions; i += 1) {
    const { bpm } = now.climb;
    const { mark, player: after } = playOnce(now.player, bpm, chance);
    marks.push({ bpm, mark });
    now = { player: after, climb: afterMark(now.climb, mark, rule, rungs), marks };
  }
  return now;
}

/** Days on the ladder, one after another, each going on where the last one ended. */
export function simulateDays(
  curve: PlayerCurve,
  variability: Variability,
  rule: LadderRule,
  days: number,
  repetitions: number,
  chance: Chance,
): Omit<LadderRun, 'player'> {
  const rungs = rungsOf(rule);
  let player = simulatedPlayer(curve, variability);
  let climb = startAt(rungs[nearestRung(rungs, rule.start)]!);
  const all: LadderRun['marks'][number][] = [];
  for (let day = 0; day < days; day += 1) {
    const sitting = playLadder(player, climb, rule, rungs, repetitions, chance);
    all.push(...sitting.marks);
    player = nextDay(sitting.player, chance);
    climb = sitting.climb;
  }
  return { climb, marks: all };
}
