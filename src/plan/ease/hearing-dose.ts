/**
 * Exposure to sound. Recommended limit: 85 dB(A) for 8 hours, halved for every 3 dB more (NIOSH, recommended
 * exposure limit with the 3 dB exchange rate, read). It is made for work and is no promise of safety.
 */
import { CAUTION } from './caution.ts';
import type { Minutes } from '../routine/routine.ts';

/** Minutes a day at a level in dB(A): `allowedMinutes(94)` is 60. */
export const allowedMinutes = (level: number): Minutes => 480 / 2 ** ((level - 85) / 3);

/** Share of a day's limit that a stretch uses up; shares of several stretches add. */
export const exposureShare = (level: number, minutes: Minutes): number => minutes / allowedMinutes(level);

export const LOWEST_LEVEL = 60;
export const HIGHEST_LEVEL = 130;

const hours = (minutes: Minutes): string => {
  if (minutes >= 60) return `${Math.round(minutes / 6) / 10} h`;
  return minutes >= 1 ? `${Math.round(minutes)} min` : `${Math.round(minutes * 60)} s`;
};

/** One line about so many minutes at a level that the player measured; null where the limit is far off. */
export function hearingLine(level: number, minutes: Minutes): string | null {
  const share = exposureShare(level, minutes);
  if (share < 0.5) return null;
  return (
    `${Math.round(minutes)} min at ${level} dB(A) are ${Math.round(share * 100)} % of the recommended ` +
    `daily limit of ${hours(allowedMinutes(level))}: play softer, farther from walls, or with ear protection. ` +
    `${CAUTION}`
  );
}
