/** Finds strokes in a recording and holds them against an even pulse. Knows nothing of the program under test. */

/** The fourth difference: a stroke's edge stands out of a drone, whose harmonics it all but removes. */
export function edges(samples: Float32Array): Float32Array {
  const out = new Float32Array(samples.length);
  for (let i = 4; i < samples.length; i++) {
    const at = (k: number): number => samples[i - k] as number;
    out[i] = Math.abs(at(0) - 4 * at(1) + 6 * at(2) - 4 * at(3) + at(4));
  }
  return out;
}

/** The size of each sample: enough where strokes sound alone. */
export const sizes = (samples: Float32Array): Float32Array => samples.map(Math.abs);

export const peakOf = (signal: Float32Array): number => signal.reduce((m, x) => Math.max(m, x), 0);

/** First frames of strokes: where the signal passes `threshold` after `rest` frames below it. */
export function findOnsets(signal: Float32Array, threshold: number, rest: number): readonly number[] {
  const onsets: number[] = [];
  let quiet = Infinity;
  signal.forEach((x, i) => {
    if (x > threshold) {
      if (quiet > rest) onsets.push(i);
      quiet = 0;
    } else quiet++;
  });
  return onsets;
}

export interface Evenness {
  readonly expected: number;
  readonly found: number;
  /** Places of the pulse without a stroke. */
  readonly missing: number;
  /** Edges that are no stroke of the pulse: what tears in the sound leave behind. */
  readonly extra: number;
  /** Largest deviation from the best-fitting pulse of exactly this period, in frames. */
  readonly worst: number;
  /** Intervals that differ from the period by more than 6 ms: what a listener notices (Friberg and Sundberg 1995). */
  readonly noticeable: number;
}

/** Holds onsets against a pulse of `period` frames. The pulse's place is fitted, its period is not. */
export function evenness(onsets: readonly number[], period: number, expected: number, rate: number): Evenness {
  const first = onsets[0] ?? 0;
  const places = onsets.map((onset) => Math.round((onset - first) / period));
  const errors = onsets.map((onset, i) => onset - first - (places[i] ?? 0) * period);
  const middle = (Math.min(...errors) + Math.max(...errors)) / 2;
  const intervals = onsets.slice(1).map((onset, i) => onset - (onsets[i] ?? 0));
  return {
    expected,
    found: onsets.length,
    missing: Math.max(0, expected - new Set(places).size),
    extra: Math.max(0, onsets.length - expected),
    worst: Math.max(...errors.map((e) => Math.abs(e - middle))),
    noticeable: intervals.filter((i) => Math.abs(i - period) > 0.006 * rate).length,
  };
}
