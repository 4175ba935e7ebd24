import type { FrameRate } from '../../common/units.ts';

const HALF_WIDTH = 16;
const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));
/** Hann's window, from -1 to 1. */
const window = (x: number): number => 0.5 + 0.5 * Math.cos(Math.PI * x);

/** Samples at another rate, by a windowed sinc. A ratio other than that of two rates also moves the pitch. */
export function resample(samples: Float32Array, from: FrameRate, to: FrameRate): Float32Array {
  if (from === to) return samples;
  const step = from / to;
  const cutoff = Math.min(1, to / from);
  const reach = HALF_WIDTH / cutoff;
  const out = new Float32Array(Math.ceil(samples.length / step));
  for (let i = 0; i < out.length; i++) {
    const centre = i * step;
    let sum = 0;
    for (let k = Math.max(0, Math.ceil(centre - reach)); k <= Math.min(samples.length - 1, centre + reach); k++) {
      sum += (samples[k] ?? 0) * cutoff * sinc((k - centre) * cutoff) * window((k - centre) / reach);
    }
    out[i] = sum;
  }
  return out;
}
