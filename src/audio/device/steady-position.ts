import type { FrameRate, Frames, Milliseconds } from '../../common/units.ts';

export interface SteadyPosition {
  /** Takes a reading of the device's position and returns the position that a steady device would have now. */
  at(position: Frames, now: Milliseconds): Frames;
}

/** Readings that count. */
const WINDOW: Milliseconds = 3000;
const SLOTS = 32;

/**
 * A device takes sound in blocks, so its position jumps and then stands still. The readings just
 * after a jump are the true ones: the line along the top of the last seconds' readings moves steadily.
 */
export function createSteadyPosition(rate: FrameRate): SteadyPosition {
  const perMs = rate / 1000;
  /** Highest lead over the wall clock in each slot of the window. */
  const leads = Array.from({ length: SLOTS }, () => -Infinity);
  let slot = 0;
  return {
    at(position, now) {
      const lead = position - now * perMs;
      const current = Math.floor(now / (WINDOW / SLOTS));
      for (let s = Math.max(slot + 1, current - SLOTS + 1); s <= current; s++) leads[s % SLOTS] = -Infinity;
      slot = Math.max(slot, current);
      leads[current % SLOTS] = Math.max(leads[current % SLOTS] ?? -Infinity, lead);
      return Math.max(...leads) + now * perMs;
    },
  };
}
