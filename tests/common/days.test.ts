/** Independent source: luxon's own calendar. */
import * as fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import {
  dateAndTime,
  dateOf,
  dayNumber,
  dayNumberAt,
  dayPlus,
  daysBetween,
  mondayOf,
  weekdayOf,
} from '../../src/common/days.ts';

const DAY = 86_400_000;
const utc = (days: number): DateTime => DateTime.fromMillis(days * DAY, { zone: 'utc' });

/** From year 1 to 9999. */
const days = fc.integer({ min: -719_162, max: 2_932_896 });

describe('days', () => {
  it('have the numbers and dates of the calendar', () => {
    fc.assert(
      fc.property(days, (day) => {
        const date = utc(day).toISODate() ?? '';
        expect(dateOf(day)).toBe(date);
        expect(dayNumber(date)).toBe(day);
        expect(weekdayOf(date)).toBe(utc(day).setLocale('en').weekdayLong);
        expect(dateOf(mondayOf(date))).toBe(utc(day).startOf('week').toISODate());
      }),
      { examples: [[0], [-1], [-719_162], [2_932_896]] },
    );
  });

  it('go on and lie apart as they do there', () => {
    fc.assert(
      fc.property(days, fc.integer({ min: -400, max: 400 }), (day, n) => {
        fc.pre(day + n >= -719_162 && day + n <= 2_932_896);
        const date = utc(day).toISODate() ?? '';
        const later = utc(day).plus({ days: n }).toISODate() ?? '';
        expect(dayPlus(date, n)).toBe(later);
        expect(daysBetween(date, later)).toBe(n);
      }),
    );
  });

  it('are counted from the moments in them', () => {
    expect([-1, 0, DAY - 1, DAY].map(dayNumberAt)).toEqual([-1, 0, 0, 1]);
    expect(dateAndTime(-1)).toBe('1969-12-31T23:59:59.999');
  });

  it.each(['', '2026-1-1', '2026-01-011', 'x2026-01-01', '2026/01/01', '20261-01-01'])(
    'are no day when %j is written',
    (text) => {
      expect(dayNumber(text)).toBeNaN();
    },
  );

  it('have no name when they are no day', () => {
    expect(weekdayOf('never')).toBe('');
  });
});
