/** Days as whole numbers, so that gaps are subtractions. */

/** Whole days since 1970-01-01 in the Gregorian calendar. */
export type DayNumber = number;

/**
 * `dayNumber('1970-01-02')` is 1. The date must be 'YYYY-MM-DD'; NaN otherwise.
 * Method: count from 1 March, so that the leap day comes last (H. Hinnant, days_from_civil; from memory).
 */
export function dayNumber(date: string): DayNumber {
  const [, y, m, d] = (/^(\d{4})-(\d{2})-(\d{2})$/.exec(date) ?? []).map(Number);
  if (y === undefined || m === undefined || d === undefined) return Number.NaN;
  const year = m <= 2 ? y - 1 : y;
  const era = Math.floor(year / 400);
  const inEra = year - era * 400;
  const inYear = Math.floor((153 * (m + (m > 2 ? -3 : 9)) + 2) / 5) + d - 1;
  return era * 146_097 + inEra * 365 + Math.floor(inEra / 4) - Math.floor(inEra / 100) + inYear - 719_468;
}
