/** A vibrato in a held note: how fast, how wide, how even. */
import type { Cents, Hertz, Seconds } from '../common/units.ts';
import { vibratoLeft } from './pitch-window.ts';
import { deviation, mean, slopeOf } from './statistics.ts';

/** One point of a pitch line. */
export interface Point {
  readonly at: Seconds;
  readonly cents: Cents;
}

export interface Vibrato {
  readonly rate: Hertz;
  /** From the middle to the top: a vibrato of 20 goes 20 up and 20 down. */
  readonly extent: Cents;
  /** How much the lengths of its waves differ, as a share of their mean: 0 is quite even; null of fewer than four. */
  readonly unevenness: number | null;
}

/** Slower is a wavering line, faster is a tremor. Recorded flutists: 4 to 8 (Garrison 2012; Timmers and Desain). */
const SLOWEST: Hertz = 3;
const FASTEST: Hertz = 10;
const GRID: Hertz = 0.05;
/** Narrower is no vibrato to an ear. Judgement, no source. */
const NARROWEST: Cents = 4;
/** It explains at least this share of what moves; an uneven one explains less than an even one. */
const EXPLAINED = 0.4;
/** A shorter line shows no rate. */
const SHORTEST: Seconds = 0.6;

/** Without its mean and its straight drift. */
function level(points: readonly Point[]): readonly Point[] {
  const slope = slopeOf(points.map(({ at, cents }) => [at, cents]));
  const [middle, height] = [mean(points.map(({ at }) => at)), mean(points.map(({ cents }) => cents))];
  return points.map(({ at, cents }) => ({ at, cents: cents - height - slope * (at - middle) }));
}

interface Sine {
  readonly amplitude: Cents;
  /** What of the points' power it explains. */
  readonly power: number;
}

/** The sine of one rate that comes nearest, by least squares. */
function sineAt(points: readonly Point[], rate: Hertz): Sine {
  let [cc, ss, cs, yc, ys] = [0, 0, 0, 0, 0];
  for (const { at, cents } of points) {
    const [c, s] = [Math.cos(2 * Math.PI * rate * at), Math.sin(2 * Math.PI * rate * at)];
    cc += c * c;
    ss += s * s;
    cs += c * s;
    yc += cents * c;
    ys += cents * s;
  }
  const whole = cc * ss - cs * cs;
  if (whole === 0) return { amplitude: 0, power: 0 };
  const [a, b] = [(yc * ss - ys * cs) / whole, (ys * cc - yc * cs) / whole];
  return { amplitude: Math.hypot(a, b), power: a * yc + b * ys };
}

/** The rate whose sine explains most; first on a grid, then between its neighbours. */
function bestRate(points: readonly Point[]): Hertz {
  const steps = Math.round((FASTEST - SLOWEST) / GRID);
  const powers = Array.from({ length: steps + 1 }, (_, i) => sineAt(points, SLOWEST + i * GRID).power);
  const best = powers.indexOf(Math.max(...powers));
  const [a, b, c] = [powers[best - 1], powers[best] as number, powers[best + 1]];
  if (a === undefined || c === undefined) return SLOWEST + best * GRID;
  const bend = a - 2 * b + c;
  return SLOWEST + (best + (bend === 0 ? 0 : (a - c) / (2 * bend))) * GRID;
}

/** Moments at which the line goes up through its middle, between two points in proportion. */
const risings = (points: readonly Point[]): readonly Seconds[] =>
  points.flatMap((point, i) => {
    const before = points[i - 1];
    if (!before || before.cents >= 0 || point.cents < 0) return [];
    return [before.at + ((point.at - before.at) * before.cents) / (before.cents - point.cents)];
  });

function unevennessOf(points: readonly Point[], rate: Hertz): number | null {
  const waves = risings(points)
    .map((at, i, all) => at - (all[i - 1] ?? NaN))
    .filter((length) => length > 0.5 / rate && length < 2 / rate);
  return waves.length < 4 ? null : deviation(waves) / mean(waves);
}

/** Null where the line has none. `window` is how long each point's stretch of sound was. */
export function vibratoOf(points: readonly Point[], window: Seconds): Vibrato | null {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last || last.at - first.at < SHORTEST) return null;
  const flat = level(points);
  const rate = bestRate(flat);
  const { amplitude, power } = sineAt(flat, rate);
  const extent = amplitude / vibratoLeft(rate, window);
  const all = flat.reduce((sum, { cents }) => sum + cents * cents, 0);
  if (extent < NARROWEST || power < EXPLAINED * all || rate <= SLOWEST || rate >= FASTEST) return null;
  return { rate, extent, unevenness: unevennessOf(flat, rate) };
}
