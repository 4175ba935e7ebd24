/**
 * The best that marks can say: a reckoner that is told all of a player but the speed (the curve, how far form and
 * nights go, what was tired off and learnt that day) and reckons on a fine grid of its own, without the program's.
 * Who must find the curve out as well can hardly do better.
 */
import type { SimulatedPlayer } from '../../src/ladder/settling/simulated-player.ts';
import { markChances } from '../../src/ladder/settling/player-curve.ts';
import type { Normal } from '../../src/ladder/speed/speed-estimate.ts';
import type { Played } from './histories.ts';
import { tempoWhereClean } from './simulated-players.ts';

/** Natural log of the tempo, 1 %; 1.5 of it each way around the truth. */
const SPACING = 0.01;
const REACH = 150;
const AWAY = Array.from({ length: 2 * REACH + 1 }, (_, i) => (i - REACH) * SPACING);

export interface Told {
  /** How likely each speed is, from `AWAY[0]` to the last, about `middle`, the natural log of a tempo. */
  readonly weights: readonly number[];
  readonly middle: number;
}

const density = (x: number, sd: number): number => Math.exp(-0.5 * (x / sd) ** 2);

const inAll = (weights: readonly number[]): readonly number[] => {
  const total = weights.reduce((a, b) => a + b, 0);
  return weights.map((weight) => weight / total);
};

/** Moved, and spread by a normal distribution. */
function spread(weights: readonly number[], sd: number, moved = 0): readonly number[] {
  const reach = Math.ceil((4 * sd + Math.abs(moved)) / SPACING) + 1;
  const taps = inAll(
    Array.from({ length: 2 * reach + 1 }, (_, t) => density((t - reach) * SPACING - moved, Math.max(sd, SPACING / 2))),
  );
  return weights.map((_, i) => taps.reduce((sum, tap, t) => sum + tap * (weights[i - t + reach] ?? 0), 0));
}

/** Before any mark; only the middle of the grid is taken from the truth. */
export function toldNothing({ curve }: SimulatedPlayer, prior: Normal): Told {
  const middle = Math.log(tempoWhereClean(curve, 0.9));
  return { middle, weights: inAll(AWAY.map((away) => density(middle + away - prior.mean, prior.sd))) };
}

/** After a sitting of that player, who was `before` and then `after` it. */
export function toldMarks(told: Told, before: SimulatedPlayer, after: SimulatedPlayer, marks: readonly Played[]): Told {
  const learnt = Math.log(after.curve.threshold / before.curve.threshold);
  const above = Math.log(before.curve.threshold / tempoWhereClean(before.curve, 0.9));
  const logs = AWAY.map((away) =>
    marks.reduce((sum, { bpm, mark }, n) => {
      const tired = before.variability.fatigue * (before.today + n);
      const log = told.middle + away + above - tired + (learnt * n) / marks.length;
      return sum + Math.log(Math.max(markChances({ ...before.curve, threshold: Math.exp(log) }, bpm)[mark], 1e-9));
    }, 0),
  );
  const most = Math.max(...logs);
  const likely = spread(
    logs.map((log) => Math.exp(log - most)),
    before.variability.form,
  );
  const weights = inAll(told.weights.map((weight, i) => weight * likely[i]!));
  return { ...told, weights: learnt > 0 ? spread(weights, 0, learnt) : weights };
}

/** After a night in which the player gained so much for certain, as a share. */
export const toldNight = (told: Told, { variability }: SimulatedPlayer, gain: number): Told => ({
  ...told,
  weights: inAll(spread(told.weights, variability.drift, Math.log(1 + gain))),
});

/** As likely too low as too high. */
export function toldTempo({ weights, middle }: Told): number {
  let sum = 0;
  const i = weights.findIndex((weight) => (sum += weight) >= 0.5);
  return Math.exp(middle + AWAY[i]! + SPACING * (0.5 - (sum - 0.5) / weights[i]!));
}
