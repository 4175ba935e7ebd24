/** Levels in bands of a third of an octave, in steps of 5 ms: what a tongued note makes jump. */
import type { FrameRate, Hertz, Seconds } from '../common/units.ts';
import { decibels } from './sound-readings.ts';

/** Bands in an octave: narrow enough that the next note of a scale falls into another one. */
const IN_OCTAVE = 3;
/** Middle of the lowest band, and how many there are: up to 8,000 Hz. */
const LOWEST: Hertz = 200;
const BANDS: readonly Hertz[] = Array.from({ length: 17 }, (_, i) => LOWEST * 2 ** (i / IN_OCTAVE));

/** Between two levels. */
export const LEVEL_STEP: Seconds = 0.005;

interface Band {
  readonly power: (x: number) => number;
}

/** A band-pass (R. Bristow-Johnson's cookbook of second-order filters, constant 0 dB peak). */
function band(middle: Hertz, rate: FrameRate): Band {
  const w = (2 * Math.PI * middle) / rate;
  const alpha = Math.sin(w) * Math.sinh((Math.LN2 / 2 / IN_OCTAVE) * (w / Math.sin(w)));
  const [b0, a1, a2] = [alpha / (1 + alpha), (-2 * Math.cos(w)) / (1 + alpha), (1 - alpha) / (1 + alpha)];
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  const power = (x: number): number => {
    const y = b0 * (x - x2) - a1 * y1 - a2 * y2;
    [x2, x1, y2, y1] = [x1, x, y1, y];
    return y * y;
  };
  return { power };
}

/** Hears blocks one after the other and keeps the levels only. */
export interface LevelMeter {
  readonly hear: (block: Float32Array) => void;
  /** By step, then by band, in decibels below full scale. */
  readonly levels: () => readonly Float32Array[];
}

export function levelMeter(rate: FrameRate): LevelMeter {
  const bands = BANDS.filter((middle) => middle < 0.4 * rate).map((middle) => band(middle, rate));
  const rows: Float32Array[] = [];
  let sums = new Float64Array(bands.length);
  let [frame, begun] = [0, 0];
  const close = (): void => {
    rows.push(Float32Array.from(sums, (sum) => decibels(sum / (frame - begun))));
    sums = new Float64Array(bands.length);
    begun = frame;
  };
  const hear = (block: Float32Array): void => {
    for (const x of block) {
      for (let i = 0; i < bands.length; i++) sums[i] = (sums[i] as number) + (bands[i] as Band).power(x);
      frame += 1;
      if (frame >= Math.round((rows.length + 1) * LEVEL_STEP * rate)) close();
    }
  };
  return { hear, levels: () => rows };
}
