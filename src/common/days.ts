/**
 * The player's days: texts 'YYYY-MM-DD' that stand in order as they are, and whole numbers, so that gaps are
 * subtractions. The one place that knows a calendar; it asks no clock.
 */
// oxlint-disable no-restricted-globals -- Date.UTC and toISOString are arithmetic of the Gregorian calendar
import type { Milliseconds } from './units.ts';

/** Whole days since 1970-01-01 in the Gregorian calendar. */
export type DayNumber = number;

/** Minutes after midnight at which the player's day starts: 04:00, so that a late gig is still today. */
export const DAY_START = 240;

const DAY = 86_400_000;

/** `dayNumber('1970-01-02')` is 1. The date must be 'YYYY-MM-DD'; NaN otherwise. */
export function dayNumber(date: string): DayNumber {
  const [, y = NaN, m = NaN, d = NaN] = (/^(\d{4})-(\d{2})-(\d{2})$/.exec(date) ?? []).map(Number);
  // Years below 100 would be taken for those of the last century: reckoned four centuries on, which repeat exactly.
  return Date.UTC(y + 400, m - 1, d) / DAY - 146_097;
}

/** The date of a day number: `dateOf(1)` is '1970-01-02'. */
export const dateOf = (day: DayNumber): string => new Date(day * DAY).toISOString().slice(0, 10);

/** The day number of a moment, in milliseconds since 1970-01-01 00:00 where the player is. */
export const dayNumberAt = (local: Milliseconds): DayNumber => Math.floor(local / DAY);

/** Date and time of such a moment: `dateAndTime(1)` is '1970-01-01T00:00:00.001'. */
export const dateAndTime = (local: Milliseconds): string => new Date(local).toISOString().slice(0, -1);

/** `dayPlus('2026-12-31', 1)` is '2027-01-01'. */
export const dayPlus = (day: string, n: number): string => dateOf(dayNumber(day) + n);

/** Whole days from one day to a later one. */
export const daysBetween = (from: string, to: string): number => dayNumber(to) - dayNumber(from);

/** Day number of the Monday of a day's week: weeks start on Monday (ISO 8601), and 1970-01-01 was a Thursday. */
export function mondayOf(day: string): DayNumber {
  const number = dayNumber(day);
  return number - ((((number + 3) % 7) + 7) % 7);
}

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'] as const;

/** `weekdayOf('2026-11-25')` is 'Wednesday'. */
export const weekdayOf = (day: string): string => WEEKDAYS[dayNumber(day) - mondayOf(day)] ?? '';
