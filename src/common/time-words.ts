import type { Seconds } from './units.ts';

/** `minutesAndSeconds(160)` is '2:40'. */
export function minutesAndSeconds(seconds: Seconds): string {
  const whole = Math.max(0, Math.round(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

const WORDS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** `wholeMinutes(1)` is '1 minute', `wholeMinutes(25)` is '25 minutes'; to a tenth. */
export function wholeMinutes(minutes: number): string {
  const rounded = Math.round(minutes * 10) / 10;
  return `${rounded} minute${rounded === 1 ? '' : 's'}`;
}

/** Small numbers as words: `inWords(3)` is 'three', `inWords(13)` is '13'. */
export const inWords = (n: number): string => WORDS[n] ?? `${n}`;

/** `minutesInWords(6)` is '6 min', `minutesInWords(2.5)` is '2:30 min'. */
export const minutesInWords = (minutes: number): string =>
  Number.isInteger(minutes) ? `${minutes} min` : `${minutesAndSeconds(minutes * 60)} min`;
