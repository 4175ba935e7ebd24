import { type DayNumber, dayNumber } from '../ladder/day.ts';

const two = (n: number): string => String(n).padStart(2, '0');

/**
 * The date of a day number, `dateOf(1)` is '1970-01-02'.
 * Method: years from 1 March, so that the leap day comes last (H. Hinnant, civil_from_days; from memory).
 */
export function dateOf(day: DayNumber): string {
  const shifted = day + 719_468;
  const era = Math.floor(shifted / 146_097);
  const inEra = shifted - era * 146_097;
  const year = Math.floor((inEra - Math.floor(inEra / 1460) + Math.floor(inEra / 36_524) - Math.floor(inEra / 146_096)) / 365);
  const inYear = inEra - (365 * year + Math.floor(year / 4) - Math.floor(year / 100));
  const marchMonth = Math.floor((5 * inYear + 2) / 153);
  const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
  const date = inYear - Math.floor((153 * marchMonth + 2) / 5) + 1;
  return `${String(year + era * 400 + (month <= 2 ? 1 : 0)).padStart(4, '0')}-${two(month)}-${two(date)}`;
}

/** `dayPlus('2026-12-31', 1)` is '2027-01-01'. */
export const dayPlus = (day: string, n: number): string => dateOf(dayNumber(day) + n);

/** Whole days from one day to a later one. */
export const daysBetween = (from: string, to: string): number => dayNumber(to) - dayNumber(from);
