/**
 * Which pitch sounds in a stretch. McLeod's method (P. McLeod and G. Wyvill, A smarter way to find pitch, ICMC 2005;
 * the library is pitchy) finds it, `phase-pitch` measures it. Where the note that should sound is known, only
 * half an octave either side of it is looked at: another octave cannot be found.
 */
import { Autocorrelator, PitchDetector } from 'pitchy';
import type { FrameRate, Frames, Hertz } from '../common/units.ts';
import { type PhaseMeter, phaseMeter } from './phase-pitch.ts';
import { windowFrames, windowSeconds } from './pitch-window.ts';

export interface FoundPitch {
  readonly hertz: Hertz;
  /** How alike one period is to the next, 0 to 1. */
  readonly clarity: number;
}

/** Lowest and highest that is looked for where nothing is expected: below the lowest tuba, above the piccolo. */
const LOWEST: Hertz = 25;
const HIGHEST: Hertz = 5000;

/** Below this likeness there is noise, or two sounds at once. */
const CLEAR = 0.75;

const TRITONE = Math.SQRT2;

/** Square difference, normalised (equation 9 of the paper), at each lag between two: 1 is the same again. */
function likeness(window: Float32Array, auto: Float32Array, from: number, to: number): Float32Array {
  const n = window.length;
  const out = new Float32Array(to + 1);
  let m = 2 * (auto[0] as number);
  for (let lag = 0; lag <= to; lag++) {
    if (lag > 0) m -= (window[lag - 1] as number) ** 2 + (window[n - lag] as number) ** 2;
    if (lag >= from) out[lag] = m > 0 ? (2 * (auto[lag] as number)) / m : 0;
  }
  return out;
}

/** The top of the parabola through a highest value and its neighbours. */
function topOf(values: Float32Array, at: number): readonly [place: number, value: number] {
  const [a, b, c] = [values[at - 1] ?? 0, values[at] ?? 0, values[at + 1] ?? 0];
  const bend = a - 2 * b + c;
  const off = bend < 0 ? Math.max(-0.5, Math.min(0.5, (a - c) / (2 * bend))) : 0;
  return [at + off, b - ((a - c) * off) / 4];
}

interface Tools {
  readonly auto: Autocorrelator<Float32Array>;
  readonly buffer: Float32Array;
  readonly detector: PitchDetector<Float32Array>;
  readonly meter: PhaseMeter;
}

const toolsFor = (length: number, rate: FrameRate): Tools => ({
  auto: Autocorrelator.forFloat32Array(length),
  buffer: new Float32Array(length),
  detector: PitchDetector.forFloat32Array(length),
  meter: phaseMeter(length, rate),
});

/** A lag of so many frames is read finely enough for the phases to be counted. */
const FINE: Frames = 200;

/** A high note's period is a few frames only: the same likeness two, four, eight periods on says it more finely. */
function finer(values: Float32Array, place: number): number {
  let [periods, lag] = [1, place];
  while (lag < FINE && 2 * lag + 2 < values.length) {
    periods *= 2;
    const at = Math.round(2 * lag);
    const best = [at - 1, at, at + 1].reduce((a, b) => ((values[b] as number) > (values[a] as number) ? b : a));
    lag = topOf(values, best)[0];
  }
  return lag / periods;
}

/** The likest lag within a tritone of a pitch; null where the best is at the edge, so no top. */
function near(window: Float32Array, about: Hertz, rate: FrameRate, { auto, buffer }: Tools): FoundPitch | null {
  const from = Math.max(2, Math.floor(rate / about / TRITONE));
  const to = Math.min(window.length - 2, Math.ceil((rate / about) * TRITONE));
  auto.autocorrelate(window, buffer);
  const values = likeness(window, buffer, from - 1, Math.min(window.length - 1, Math.max(to + 1, 2 * FINE + 4)));
  let best = from;
  for (let lag = from; lag <= to; lag++) if ((values[lag] as number) > (values[best] as number)) best = lag;
  if (best === from || best === to) return null;
  const [place, clarity] = topOf(values, best);
  return { hertz: rate / finer(values, place), clarity: Math.min(1, clarity) };
}

/** Hears pitches in sound of one rate; holds buffers, so each hearing makes its own. */
export interface PitchFinder {
  /** How many frames `find` is to be given where this pitch is expected; null expects nothing. */
  readonly framesFor: (about: Hertz | null) => number;
  /** Null where there is no clear pitch. */
  readonly find: (window: Float32Array, about: Hertz | null) => FoundPitch | null;
}

export function pitchFinder(rate: FrameRate): PitchFinder {
  const made = new Map<number, Tools>();
  const tools = (length: number): Tools => {
    const found = made.get(length) ?? toolsFor(length, rate);
    made.set(length, found);
    return found;
  };
  const free = (window: Float32Array): FoundPitch | null => {
    const [hertz, clarity] = tools(window.length).detector.findPitch(window, rate);
    if (hertz < LOWEST || hertz > HIGHEST || clarity < CLEAR) return null;
    return near(window, hertz, rate, tools(window.length));
  };
  const framesFor = (about: Hertz | null): number => windowFrames(windowSeconds(about ?? 440), rate);
  const find = (window: Float32Array, about: Hertz | null): FoundPitch | null => {
    const found = about === null ? free(window) : near(window, about, rate, tools(window.length));
    if (found === null || found.clarity < CLEAR) return null;
    const hertz = tools(window.length).meter.measure(window, found.hertz);
    return { hertz, clarity: found.clarity };
  };
  return { framesFor, find };
}
