/** One period of each drone timbre, made of as many harmonics as the rate can carry. */
import type { DroneTimbre } from '../../music/sound/sound-commands.ts';
import type { FrameRate, Gain, Hertz } from '../../common/units.ts';

const TABLE_SIZE = 2048;
/** Root mean square of a tone, the same for all timbres; none of them has a peak of three times as much. */
const LOUDNESS: Gain = 0.35;
/** Highest harmonic of any timbre. */
const MOST = 40;

/**
 * Level of harmonic h (1 is the fundamental, the strongest: that is what a player tunes to). Rich above it on
 * purpose: beats with a player's tone are heard in the upper harmonics.
 */
const SPECTRA: Readonly<Record<DroneTimbre, (h: number) => Gain>> = {
  // A reed's colour, a broad hump round harmonics 3 to 6, under a fundamental that is its own.
  reed: (h) => 0.4 * Math.exp(-(((Math.log2(h) - 1.8) / 1.25) ** 2)) + 1 / h ** 2,
  // Open flue ranks: octaves and twelfths.
  organ: (h) => ({ 1: 1, 2: 0.5, 3: 0.3, 4: 0.35, 5: 0.1, 6: 0.2, 8: 0.18, 10: 0.06, 12: 0.09, 16: 0.07 })[h] ?? 0,
  // A bowed string is close to a saw-tooth; the tilt takes the edge off.
  string: (h) => 1 / h ** 1.15,
  // Close to a tuning fork, with just enough above it to hear beats at the octave and the twelfth.
  pure: (h) => ({ 1: 1, 2: 0.12, 3: 0.06, 4: 0.03 })[h] ?? 0,
};

/** Harmonics that stay below the hearing of any limiter or converter: under 0.45 of the rate. */
export const harmonicsFor = (frequency: Hertz, rate: FrameRate): number =>
  Math.max(1, Math.min(MOST, Math.floor((rate * 0.45) / frequency)));

const tables = new Map<string, Float32Array>();

/** One period, with its first sample repeated at the end, for interpolation. */
export function wavetable(timbre: DroneTimbre, harmonics: number): Float32Array {
  const key = `${timbre}/${harmonics}`;
  const table = tables.get(key) ?? makeTable(SPECTRA[timbre], harmonics);
  tables.set(key, table);
  return table;
}

/**
 * Phases of the harmonics that keep the peak low: each starts later by the share of the levels that lies below it.
 * After M. R. Schroeder, IEEE Transactions on Information Theory 16, 85 (1970), from memory: he takes the power; where
 * the fundamental leads, as here, the levels themselves keep the peak lower by up to 2 dB.
 */
function lowPeakPhases(levels: readonly Gain[]): readonly number[] {
  const all = levels.reduce((sum, level) => sum + level, 0);
  let phase = 0;
  let below = 0;
  return levels.map((level) => {
    phase += (2 * Math.PI * below) / all;
    below += level;
    return phase;
  });
}

function addHarmonic(table: Float32Array, h: number, level: Gain, phase: number): void {
  for (let i = 0; i <= TABLE_SIZE; i++)
    table[i] = (table[i] ?? 0) + level * Math.sin((2 * Math.PI * h * i) / TABLE_SIZE + phase);
}

function makeTable(level: (h: number) => Gain, harmonics: number): Float32Array {
  const table = new Float32Array(TABLE_SIZE + 1);
  const levels = Array.from({ length: harmonics }, (_, i) => level(i + 1));
  const phases = lowPeakPhases(levels);
  levels.forEach((each, i) => addHarmonic(table, i + 1, each, phases[i] ?? 0));
  const rms = Math.sqrt(table.reduce((s, x) => s + x * x, 0) / table.length);
  return table.map((x) => (x * LOUDNESS) / rms);
}

/** The table's value at a moment counted in periods; only the part after the point counts. */
function inTable(table: Float32Array, periods: number): number {
  const phase = (periods - Math.floor(periods)) * TABLE_SIZE;
  const k = phase | 0;
  const a = table[k] as number;
  return a + ((table[k + 1] as number) - a) * (phase - k);
}

/** Adds a tone whose pitch moves: `periodsAt` says how many periods have passed at a sample of `out`. */
export function addMovingTone(
  out: Float32Array,
  table: Float32Array,
  periodsAt: (sample: number) => number,
  gain: Gain,
): void {
  for (let i = 0; i < out.length; i++) out[i] = (out[i] as number) + gain * inTable(table, periodsAt(i));
}

/** Adds a tone of one pitch to `out`; at its first sample `periods` have passed. */
export function addToneFrom(
  out: Float32Array,
  table: Float32Array,
  frequency: Hertz,
  rate: FrameRate,
  periods: number,
  gain: Gain,
): void {
  const step = (frequency / rate) * TABLE_SIZE;
  let phase = (periods - Math.floor(periods)) * TABLE_SIZE;
  for (let i = 0; i < out.length; i++) {
    const k = phase | 0;
    const a = table[k] as number;
    out[i] = (out[i] as number) + gain * (a + ((table[k + 1] as number) - a) * (phase - k));
    phase += step;
    if (phase >= TABLE_SIZE) phase -= TABLE_SIZE;
  }
}

/**
 * The same by the index of out[0]: the phase is computed from it, so that a tone mixed in chunks is the tone mixed in
 * one.
 */
export const addTone = (
  out: Float32Array,
  table: Float32Array,
  frequency: Hertz,
  rate: FrameRate,
  frame: number,
  gain: Gain,
): void => addToneFrom(out, table, frequency, rate, (frequency * frame) / rate, gain);
