/** A limiter that looks ahead: the mix never passes the ceiling, and below it is left alone. */
import type { Frames, Gain } from '../../common/units.ts';

export const CEILING: Gain = 0.89;
/** Frames of one step of the gain. */
export const BLOCK: Frames = 64;
const REACH = 8;
/**
 * What must be known on either side of a stretch to limit it: the gain depends on this many frames and on nothing
 * older.
 */
export const MARGIN: Frames = (2 * REACH + 1) * BLOCK;

function gainNeeded(mix: Float32Array, block: number): Gain {
  let peak = 0;
  for (let i = block * BLOCK; i < (block + 1) * BLOCK; i++) peak = Math.max(peak, Math.abs(mix[i] ?? 0));
  return peak > CEILING ? CEILING / peak : 1;
}

const around = (values: Float32Array, at: number): Float32Array =>
  values.subarray(Math.max(0, at - REACH), at + REACH + 1);

/**
 * The gain of each block: the least that any neighbour needs, then averaged, so it moves slowly and is never too late.
 */
function gains(mix: Float32Array): Float32Array | null {
  const needed = Float32Array.from({ length: Math.floor(mix.length / BLOCK) }, (_, b) => gainNeeded(mix, b));
  if (needed.every((g) => g === 1)) return null;
  const held = needed.map((_, b) => around(needed, b).reduce((m, g) => Math.min(m, g), 1));
  return held.map((_, b) => {
    const near = around(held, b);
    return near.reduce((sum, g) => sum + g, 0) / near.length;
  });
}

/**
 * Limits `mix`, whose first and last MARGIN frames serve as surroundings and are cut off. Its length is a multiple of
 * BLOCK.
 */
export function limit(mix: Float32Array): Float32Array {
  const gain = gains(mix);
  if (gain) applyGains(mix, gain);
  return mix.subarray(MARGIN, mix.length - MARGIN);
}

function applyGains(mix: Float32Array, gain: Float32Array): void {
  const at = (b: number): Gain => gain[Math.min(gain.length - 1, Math.max(0, b))] ?? 1;
  for (let b = 0; b < gain.length; b++) {
    const left = Math.min(at(b - 1), at(b));
    const right = Math.min(at(b), at(b + 1));
    for (let i = 0; i < BLOCK; i++) {
      const k = b * BLOCK + i;
      mix[k] = (mix[k] ?? 0) * (left + ((right - left) * i) / BLOCK);
    }
  }
}
