/** Sound in blocks to readings in equal steps; what is held of the sound is never longer than one window. */
import type { FrameRate, Frames, Hertz, Seconds } from '../common/units.ts';
import { type PitchFinder, pitchFinder } from './pitch-finder.ts';

export interface Reading {
  /** Middle of the window, from the first frame heard. */
  readonly at: Seconds;
  /** Length of the window. */
  readonly window: Seconds;
  /** Null where no clear pitch sounds. */
  readonly hertz: Hertz | null;
  /** What was looked for; null where anything may sound. */
  readonly expected: Hertz | null;
  /** Decibels below full scale, of the window: a sine of full scale is -3. */
  readonly level: number;
}

/** Softer than this is silence: the noise of a quiet recording. */
export const SILENCE = -60;

/** Between two readings. */
export const STEP: Seconds = 0.01;

export const decibels = (power: number): number => 10 * Math.log10(Math.max(power, 1e-12));

function powerOf(samples: Float32Array): number {
  let sum = 0;
  for (const x of samples) sum += x * x;
  return sum / samples.length;
}

/** Hears blocks one after the other. */
export interface Listener {
  /** The readings that this block completes. */
  readonly hear: (block: Float32Array) => readonly Reading[];
}

interface Held {
  /** Frame of the recording at which what is held begins. */
  readonly from: Frames;
  readonly samples: Float32Array;
}

const joined = ({ from, samples }: Held, block: Float32Array): Held => {
  const all = new Float32Array(samples.length + block.length);
  all.set(samples);
  all.set(block, samples.length);
  return { from, samples: all };
};

const without = ({ from, samples }: Held, before: Frames): Held => {
  const gone = Math.max(0, Math.min(samples.length, before - from));
  return { from: from + gone, samples: samples.slice(gone) };
};

interface At {
  readonly middle: Frames;
  readonly rate: FrameRate;
  readonly about: Hertz | null;
}

function readingOf(window: Float32Array, { middle, rate, about }: At, finder: PitchFinder): Reading {
  const level = decibels(powerOf(window));
  const hertz = level < SILENCE ? null : (finder.find(window, about)?.hertz ?? null);
  return { at: middle / rate, window: window.length / rate, hertz, expected: about, level };
}

/** `about` says what should sound at a moment of the recording: null where anything may. */
export function listener(rate: FrameRate, about: (at: Seconds) => Hertz | null): Listener {
  const finder = pitchFinder(rate);
  const longest = finder.framesFor(1);
  let held: Held = { from: 0, samples: new Float32Array(0) };
  let index = 0;
  const hear = (block: Float32Array): readonly Reading[] => {
    held = joined(held, block);
    const readings: Reading[] = [];
    for (;;) {
      const middle = Math.round(index * STEP * rate);
      const expected = about(middle / rate);
      const half = finder.framesFor(expected) / 2;
      if (middle + half > held.from + held.samples.length) break;
      index += 1;
      if (middle - half < held.from) continue;
      const window = held.samples.subarray(middle - half - held.from, middle + half - held.from);
      readings.push(readingOf(window, { middle, rate, about: expected }, finder));
    }
    held = without(held, Math.round(index * STEP * rate) - longest);
    return readings;
  };
  return { hear };
}
