/** When playing begins in a recording: the first sound that lasts, so no click of a count-in. */
import type { FrameRate, Seconds } from '../common/units.ts';
import { SILENCE, STEP, decibels } from './sound-readings.ts';
import { quantile } from './statistics.ts';

/** A click is over sooner. */
const LASTS: Seconds = 0.08;
/** What lies further below the loudest is no note, in decibels. */
const DEPTH = 35;
/** A note stands out of the noise of the room by so much. */
const ABOVE_NOISE = 6;

/** Levels in steps of a reading, block by block. */
export interface Loudness {
  readonly hear: (block: Float32Array) => void;
  readonly levels: () => readonly number[];
  /** The greatest sample; 1 is full scale. */
  readonly peak: () => number;
}

export function loudness(rate: FrameRate): Loudness {
  const levels: number[] = [];
  let [sum, count, frame, peak] = [0, 0, 0, 0];
  const hear = (block: Float32Array): void => {
    for (const x of block) {
      sum += x * x;
      count += 1;
      frame += 1;
      peak = Math.max(peak, Math.abs(x));
      if (frame < Math.round((levels.length + 1) * STEP * rate)) continue;
      levels.push(decibels(sum / count));
      [sum, count] = [0, 0];
    }
  };
  return { hear, levels: () => levels, peak: () => peak };
}

/** Moment from the first frame; null where all is silence. */
export function firstSound(levels: readonly number[]): Seconds | null {
  const loudest = levels.reduce((most, level) => Math.max(most, level), -Infinity);
  const noise = quantile(levels, 0.05) + ABOVE_NOISE;
  const least = Math.max(SILENCE, loudest - DEPTH, noise < loudest - 2 * ABOVE_NOISE ? noise : -Infinity);
  const long = Math.round(LASTS / STEP);
  let loud = 0;
  for (const [i, level] of levels.entries()) {
    loud = level >= least ? loud + 1 : 0;
    if (loud === long) return (i + 1 - long) * STEP;
  }
  return null;
}
