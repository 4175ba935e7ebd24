/**
 * A pitch that is nearly known, measured: each harmonic's phase turns by so much from the first half of a window to
 * the second. Its frequency is turn / time, which no grid of samples limits; a stronger or higher harmonic says more.
 */
import type { FrameRate, Hertz } from '../common/units.ts';

/** Most harmonics that are asked. */
const HARMONICS = 8;
/** Turns of a harmonic between the halves beyond which a vibrato blurs it. */
const MOST_TURNS = 60;
/** A harmonic weaker than this share of the strongest one's power is taken for noise. */
const WEAKEST = 0.004;

const hann = (length: number): Float64Array =>
  Float64Array.from({ length }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / length));

interface Wave {
  readonly re: number;
  readonly im: number;
}

/** What a stretch holds of one frequency, weighed by a window; `step` is in radians a frame. */
function waveIn(samples: Float32Array, from: number, weights: Float64Array, step: number): Wave {
  const [turnRe, turnIm] = [Math.cos(step), -Math.sin(step)];
  let [re, im, cos, sin] = [0, 0, 1, 0];
  for (let i = 0; i < weights.length; i++) {
    const x = (samples[from + i] as number) * (weights[i] as number);
    re += x * cos;
    im += x * sin;
    [cos, sin] = [cos * turnRe - sin * turnIm, cos * turnIm + sin * turnRe];
  }
  return { re, im };
}

const turnsApart = (turns: number): number => turns - Math.round(turns);

/** Measures a pitch in windows of an even length. */
export interface PhaseMeter {
  /** `about` may be wrong by some 20 cents. */
  readonly measure: (window: Float32Array, about: Hertz) => Hertz;
}

/** The halves are weighed by a Hann window each; the meter holds it, so make one for each length. */
export function phaseMeter(length: number, rate: FrameRate): PhaseMeter {
  const half = length / 2;
  const weights = hann(half);
  const between = half / rate;
  const harmonicsOf = (about: Hertz): number =>
    Math.max(1, Math.min(HARMONICS, Math.floor(MOST_TURNS / (about * between)), Math.floor((0.45 * rate) / about)));
  const measure = (window: Float32Array, about: Hertz): Hertz => {
    let [hertz, sum, weight, strongest] = [about, 0, 0, 0];
    for (let h = 1; h <= harmonicsOf(about); h++) {
      const step = (2 * Math.PI * h * hertz) / rate;
      const [a, b] = [waveIn(window, 0, weights, step), waveIn(window, half, weights, step)];
      const power = Math.hypot(a.re, a.im) * Math.hypot(b.re, b.im);
      strongest = Math.max(strongest, power);
      if (power === 0 || power < WEAKEST * strongest) continue;
      // Both waves are counted from their own first frame: what the phase gained is the whole turns and a rest.
      const turns = (Math.atan2(b.im, b.re) - Math.atan2(a.im, a.re)) / (2 * Math.PI);
      const exact = h * hertz * between;
      const found = (exact + turnsApart(turns - exact)) / (h * between);
      sum += found * h * h * power;
      weight += h * h * power;
      hertz = sum / weight;
    }
    return hertz;
  };
  return { measure };
}
