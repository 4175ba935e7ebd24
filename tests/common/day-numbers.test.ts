import { describe, expect, it } from 'vitest';
import { dayNumber } from '../../src/common/days.ts';

describe('day numbers', () => {
  // Unix time counts days from 1970-01-01 (POSIX); 2000-03-01 is day 11017 (946684800 s + 60 days).
  it.each([
    ['1970-01-01', 0],
    ['2000-03-01', 11_017],
    ['2024-02-29', Date.UTC(2024, 1, 29) / 864e5],
    ['2026-11-25', Date.UTC(2026, 10, 25) / 864e5],
  ])('%s', (date, day) => expect(dayNumber(date)).toBe(day));
  it('are none for what is no date', () => expect(dayNumber('yesterday')).toBeNaN());
});
