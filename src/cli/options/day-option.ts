import { dateOf, dayNumber } from '../../common/days.ts';
import { harmless } from '../../common/harmless-text.ts';
import { Trouble } from '../../common/trouble.ts';

/** Whether a text is a day that the calendar has: '2026-02-30' is none. */
const isDay = (text: string): boolean => {
  const number = dayNumber(text);
  return Number.isFinite(number) && dateOf(number) === text;
};

/** @throws Trouble (exit code 2) for what is no day, 'YYYY-MM-DD'. */
export function dayOption(text: string | undefined, option: string, otherwise: string): string {
  if (text === undefined) return otherwise;
  if (isDay(text)) return text;
  throw new Trouble(`--${option} is '${harmless(text, 40)}'; it must be a day, as '2026-11-25'.`, 2);
}
