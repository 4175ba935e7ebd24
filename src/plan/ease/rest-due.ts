/** Rests in proportion to playing. Values: several health pages for musicians, read. */
import type { Seconds } from '../../common/units.ts';
import { minutesAndSeconds } from '../../common/time-words.ts';

const MINUTE: Seconds = 60;
/** Alone: 5 minutes after each 25. */
const SHORT_AFTER: Seconds = 25 * MINUTE;
/** At most 50 minutes without 10 of rest. */
const LONG_AFTER: Seconds = 50 * MINUTE;
/** High-load playing shorter than this needs no rest of its own beyond the breathing bars. */
const HARD_AFTER: Seconds = 3 * MINUTE;

/**
 * The rest that is due after so long a stretch of playing, part of it high load, as a sentence; null when none is.
 * After high load the rest is about as long as the playing (common practice on brass, no source).
 */
export function restDue(playing: Seconds, highLoad: Seconds): string | null {
  const played = minutesAndSeconds(playing);
  if (playing >= LONG_AFTER) return `${played} without a rest: take ten minutes off the instrument.`;
  if (playing >= SHORT_AFTER) return `${played} of playing: five minutes' rest are due.`;
  if (highLoad < HARD_AFTER) return null;
  return `${minutesAndSeconds(highLoad)} of demanding playing: rest about as long as you played.`;
}
