/** Rests in proportion to playing. Values: several health pages for musicians, read. */
import type { Seconds } from '../../common/units.ts';
import { minutesAndSeconds } from '../../common/time-words.ts';

export interface RestDue {
  readonly seconds: Seconds;
  readonly sentence: string;
}

const MINUTE: Seconds = 60;
/** Alone: 5 minutes after each 25. */
const SHORT = { after: 25 * MINUTE, rest: 5 * MINUTE };
/** At most 50 minutes without 10 of rest. */
const LONG = { after: 50 * MINUTE, rest: 10 * MINUTE };
/** High-load playing shorter than this needs no rest of its own beyond the breathing bars. */
const HARD_AFTER: Seconds = 3 * MINUTE;

/**
 * The rest that is due after so long a stretch of playing, part of it high load; null when none is.
 * After high load the rest is about as long as the playing (common practice on brass, no source).
 */
export function restDue(playing: Seconds, highLoad: Seconds): RestDue | null {
  const played = minutesAndSeconds(playing);
  if (playing >= LONG.after)
    return { seconds: LONG.rest, sentence: `${played} without a rest: take ten minutes off the instrument.` };
  if (playing >= SHORT.after)
    return { seconds: SHORT.rest, sentence: `${played} of playing: five minutes' rest are due.` };
  if (highLoad < HARD_AFTER) return null;
  return {
    seconds: highLoad,
    sentence: `${minutesAndSeconds(highLoad)} of demanding playing: rest about as long as you played.`,
  };
}
