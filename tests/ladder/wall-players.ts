/** Weeks of simulated practice: players who gain a little every week, and players who have stopped. */
import { type Chance, evenInLog, seeded } from '../../src/common/chance.ts';
import { dateOf } from '../../src/common/days.ts';
import { startAt } from '../../src/ladder/rule/climb.ts';
import type { LadderRule } from '../../src/ladder/rule/ladder-rule.ts';
import { nearestRung, rungFrom, rungsOf } from '../../src/ladder/rule/rungs.ts';
import { type Variability, nextDay, playLadder, simulatedPlayer } from '../../src/ladder/settling/simulated-player.ts';
import type { LineHistory } from '../../src/ladder/speed/line-history.ts';
import { markingOf, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { wallOf } from '../../src/ladder/wall/wall.ts';
import type { PlayerCurve } from '../../src/ladder/settling/player-curve.ts';
import { talliesOf } from './histories.ts';
import { type KnownPlayer, oneInTwenty, stillIfKnown } from './wall-bound.ts';

/** Who practises, from the least to the most of each. */
export interface Practisers {
  readonly slope: readonly [number, number];
  readonly form: number;
  readonly aDay: readonly [number, number];
}

export const USUAL: Practisers = { slope: [8, 30], form: 0.015, aDay: [15, 30] };
/** Their marks say more: it falls apart at once, days are alike, and there are twice as many. */
export const CLEAR: Practisers = { slope: [15, 40], form: 0.01, aDay: [30, 50] };
/** As usual players, but much more of it. */
export const KEEN: Practisers = { slope: [8, 30], form: 0.015, aDay: [60, 80] };

export const rangeText = ({ slope, form, aDay }: Practisers): string =>
  `threshold 60 to 180, slope ${slope.join(' to ')}, lapses 0 to 4 %, tense 0 to 40 %, day form to ${form * 100} %, ` +
  `no drift, five days a week, ${aDay.join(' to ')} repetitions a day, each day begun two rungs below where the last ` +
  'one ended';

const STILL: Variability = { drift: 0, form: 0, learning: 0, ceiling: 999, fatigue: 0, rust: 0 };
/** A Monday. */
const FIRST = 20_003;
const LINE = { exercise: 'five-notes', articulation: 'double', key: 'Bb' };

export function practiserOf(chance: Chance, who: Practisers): { curve: PlayerCurve; form: number; aDay: number } {
  const between = ([low, high]: readonly [number, number]): number => Math.round(low + (high - low) * chance());
  const threshold = evenInLog(chance, 60, 180);
  const curve = { threshold, slope: evenInLog(chance, ...who.slope), lapse: 0.04 * chance(), tense: 0.4 * chance() };
  return { curve, form: who.form * chance(), aDay: between(who.aDay) };
}

/** The line after each week of practice, Monday to Friday; `gains[week]` is what that week gained, natural log. */
export function weeksOf(
  seed: number,
  who: Practisers,
  rule: LadderRule,
  gains: readonly number[],
): readonly LineHistory[] {
  const chance: Chance = seeded(seed);
  const { curve, form, aDay } = practiserOf(chance, who);
  let player = simulatedPlayer(curve, { ...STILL, form });
  const rungs = rungsOf(rule);
  let climb = startAt(rungs[nearestRung(rungs, curve.threshold * 0.8)]!);
  let tallies: LineHistory['tallies'] = [];
  let best: LineHistory['best'] = null;
  return gains.map((gain, week) => {
    for (let day = 0; day < 7; day += 1) {
      const rested = nextDay(player, chance);
      player = { ...rested, curve: { ...rested.curve, threshold: rested.curve.threshold * Math.exp(gain / 7) } };
      if (day >= 5) continue;
      const begun = startAt(rungFrom(rungs, climb.bpm, -2), climb.best);
      const run = playLadder(player, begun, rule, rungs, aDay, chance);
      ({ player, climb } = run);
      const date = dateOf(FIRST + 7 * week + day);
      tallies = [...tallies, ...talliesOf(date, run.marks)];
      if (climb.best !== null && climb.best > (best?.bpm ?? 0)) best = { bpm: climb.best, day: date };
    }
    const { bpm, cleanRun, missedRun } = climb;
    return { line: LINE, bpm, cleanRun, missedRun, best, lastDay: tallies.at(-1)!.day, tallies };
  });
}

const MARKING = markingOf(0.3);

/** Whether a wall is told on the Monday after a week. */
export function toldAfter(history: LineHistory, rule: LadderRule, week: number): boolean {
  const day = FIRST + 7 * (week + 1);
  return wallOf({ history, rule, rungs: rungsOf(rule), marking: MARKING, prior: weakPrior(rule), day }) !== null;
}

export interface ToldOfWalls {
  /** The share of weeks in which players who gain 1 % a week are told of a wall. */
  readonly gaining: number;
  /** The share of players who are told by the end of the first week in which they stand still, the second ... */
  readonly stoppedBy: readonly number[];
  /** The same, if all were known but whether the player has stopped, at one wrong look in twenty. */
  readonly boundBy: readonly number[];
}

/** Weeks of the same gain before the ones that are looked at: an estimate needs some. */
const BEFORE = 9;
const LOOKED_AT = 6;

const shareBy = (looks: readonly (readonly boolean[])[]): readonly number[] =>
  Array.from(
    { length: LOOKED_AT },
    (_, week) => looks.filter((told) => told.slice(0, week + 1).some(Boolean)).length / looks.length,
  );

function knownAtStop(seed: number, who: Practisers): KnownPlayer {
  const { curve, form } = practiserOf(seeded(seed), who);
  const threshold = curve.threshold * Math.exp(0.01 * BEFORE);
  return { curve: { ...curve, threshold }, form, stopped: FIRST + 7 * BEFORE };
}

/** So many players who gain 1 % a week all the time, and as many who did and stand still then. */
export function toldOfWalls(players: number, who: Practisers, rule: LadderRule, firstSeed: number): ToldOfWalls {
  const looksAt = (seed: number, last: number): { told: readonly boolean[]; bound: readonly number[] } => {
    const gains = Array.from({ length: BEFORE + LOOKED_AT }, (_, week) => (week < BEFORE ? 0.01 : last));
    const weeks = weeksOf(seed, who, rule, gains);
    return {
      told: weeks.flatMap((history, week) => (week < BEFORE ? [] : [toldAfter(history, rule, week)])),
      bound: stillIfKnown(knownAtStop(seed, who), weeks.at(-1)!.tallies, LOOKED_AT),
    };
  };
  const all = Array.from({ length: players }, (_, i) => firstSeed + i);
  const gaining = all.map((seed) => looksAt(seed, 0.01));
  const stopped = all.map((seed) => looksAt(seed + 500_000, 0));
  const limit = oneInTwenty(gaining.flatMap(({ bound }) => bound));
  return {
    gaining: gaining.flatMap(({ told }) => told).filter(Boolean).length / (players * LOOKED_AT),
    stoppedBy: shareBy(stopped.map(({ told }) => told)),
    boundBy: shareBy(stopped.map(({ bound }) => bound.map((one) => one > limit))),
  };
}
