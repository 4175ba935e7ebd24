/**
 * How a drone's pitch moves: it glides within a moment, its sound goes on. Its phase at any time is computed from the
 * glides alone, so any stretch of it can be mixed anew.
 */
import type { Drone } from '../../music/sound/sound-commands.ts';
import { droneTonicFrequency } from '../../music/pitch/tuning.ts';
import type { Hertz, Seconds } from '../../common/units.ts';

/** Short enough to be a step to the ear, long enough to make no click. */
const GLIDE: Seconds = 0.05;

/** One move of the pitch. */
export interface Glide {
  readonly at: Seconds;
  /** Periods of the tonic that have passed at `at`. */
  readonly periods: number;
  readonly from: Hertz;
  readonly to: Hertz;
}

const frequencyIn = ({ at, from, to }: Glide, t: Seconds): Hertz =>
  from + (to - from) * Math.min(1, Math.max(0, (t - at) / GLIDE));

/** The integral of the frequency: it moves evenly from one to the other, then stays. */
function periodsIn(glide: Glide, t: Seconds): number {
  const { at, periods, from, to } = glide;
  const gliding = Math.min(t - at, GLIDE);
  const after = Math.max(0, t - at - GLIDE);
  return periods + from * gliding + ((to - from) * gliding ** 2) / (2 * GLIDE) + to * after;
}

/** The glide that governs a moment; null before the first. */
const glideAt = (glides: readonly Glide[], t: Seconds): Glide | null => glides.findLast(({ at }) => at <= t) ?? null;

/** Periods of the tonic from the start of all sound to a moment; a drone that never moved began there. */
export function periodsAt(drone: Drone, glides: readonly Glide[], t: Seconds): number {
  const glide = glideAt(glides, t);
  return glide ? periodsIn(glide, t) : (glides[0]?.from ?? droneTonicFrequency(drone)) * t;
}

/** The tonic's frequency at a moment. */
export function frequencyAt(drone: Drone, glides: readonly Glide[], t: Seconds): Hertz {
  const glide = glideAt(glides, t);
  return glide ? frequencyIn(glide, t) : (glides[0]?.from ?? droneTonicFrequency(drone));
}

/** Whether the pitch moves in [from, to). */
export const isMoving = (glides: readonly Glide[], from: Seconds, to: Seconds): boolean =>
  glides.some(({ at }) => at < to && at + GLIDE > from);

/** A glide more, to another drone's pitch. */
export const withGlide = (drone: Drone, glides: readonly Glide[], next: Drone, at: Seconds): readonly Glide[] => [
  ...glides,
  {
    at,
    periods: periodsAt(drone, glides, at),
    from: frequencyAt(drone, glides, at),
    to: droneTonicFrequency(next),
  },
];

/** Whether two drones differ in nothing but their pitch. */
export const isSameSound = (a: Drone, b: Drone): boolean =>
  a.timbre === b.timbre && a.tuning === b.tuning && a.gain === b.gain && a.voices.join() === b.voices.join();

/** Glides that still tell something of what sounds after a moment. */
export function glidesFrom(glides: readonly Glide[], from: Seconds): readonly Glide[] {
  const last = glides.findLastIndex(({ at }) => at <= from);
  return last <= 0 ? glides : glides.slice(last);
}
