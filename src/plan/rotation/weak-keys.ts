/** Which keys of an exercise are weak, from what is known of its lines, and whether there is time to repeat them. */
import type { Seconds } from '../../common/units.ts';
import type { ArticulationName, KeyName } from '../../ladder/line.ts';
import { type LineHistory, NO_MARKS, cleanShare, summed } from '../../ladder/speed/line-history.ts';
import type { Rotation } from './key-rotation.ts';

/** Lies more than 15 % under the middle one: common practice, no source. */
const WEAK_SHARE = 0.85;

/** A block shorter than this goes through its keys once, the weak ones too: common practice, no source. */
const TIME_FOR_REPEATS: Seconds = 240;

/** `hasTimeForRepeats(210)` is false. */
export const hasTimeForRepeats = (block: Seconds): boolean => block >= TIME_FOR_REPEATS;

/** Keys without a best where others have one, and those whose best lies far under the middle one. */
export function weakKeys(keys: readonly KeyName[], bestOf: (key: KeyName) => number | null): ReadonlySet<KeyName> {
  const held = keys.flatMap((key) => bestOf(key) ?? []).sort((a, b) => a - b);
  const middle = held[Math.floor((held.length - 1) / 2)];
  if (middle === undefined) return new Set();
  return new Set(keys.filter((key) => (bestOf(key) ?? 0) < middle * WEAK_SHARE));
}

/** By which keys are compared: the best, or on a shared ladder the share of clean repetitions; null without any. */
function bestIn(histories: readonly LineHistory[], { ladder }: Rotation, key: KeyName): number | null {
  if (ladder === 'shared')
    return cleanShare(histories.map(({ keys }) => keys?.[key] ?? NO_MARKS).reduce(summed, NO_MARKS));
  return histories.find(({ line, best }) => line.key === key && best !== null)?.best?.bpm ?? null;
}

/** The keys that are weak in one way of tonguing; `histories` are those of the exercise. */
export function weakIn(
  histories: readonly LineHistory[],
  rotation: Rotation,
  keys: readonly KeyName[],
  articulation: ArticulationName,
): ReadonlySet<KeyName> {
  const own = histories.filter(({ line }) => line.articulation === articulation);
  return weakKeys(keys, (key) => bestIn(own, rotation, key));
}
