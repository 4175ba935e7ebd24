import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { atOf, dayOf, handClock, stampOf } from '../../src/runtime/clock.ts';

const HOUR = 3_600_000;

/**
 * Across both changes to and from daylight-saving time of 2026, hour by hour; independent source: luxon's own time-
 * zone arithmetic.
 */
const ZONES = [
  ['Europe/Berlin', ['2026-03-28T20:00', '2026-10-24T20:00']],
  ['America/New_York', ['2026-03-07T20:00', '2026-10-31T20:00']],
  ['Australia/Lord_Howe', ['2026-04-04T10:00', '2026-10-03T10:00']],
] as const;

describe('the wall clock', () => {
  it.each(ZONES)('writes moments and days in %s as a calendar library does', (zone, changes) => {
    for (const change of changes) {
      const start = DateTime.fromISO(change, { zone }).toMillis();
      for (let hour = 0; hour < 36; hour += 1) {
        const moment = DateTime.fromMillis(start + hour * HOUR, { zone });
        expect(atOf(moment.toMillis(), moment.offset)).toBe(
          moment.toISO({ includeOffset: true })?.replace(/Z$/, '+00:00'),
        );
        const evening = moment.hour < 4 ? moment.minus({ days: 1 }) : moment;
        expect(dayOf(moment.toMillis(), moment.offset)).toBe(evening.toISODate());
      }
    }
  });

  it('counts the hours after midnight to the evening before, until four', () => {
    expect(dayOf(Date.parse('2026-11-26T03:59:59+01:00'), 60)).toBe('2026-11-25');
    expect(dayOf(Date.parse('2026-11-26T04:00:00+01:00'), 60)).toBe('2026-11-26');
    expect(dayOf(Date.parse('2026-11-26T00:30:00+01:00'), 60, 0)).toBe('2026-11-26');
  });
});

describe('a clock moved by hand', () => {
  it('is set without the monotonic time noticing', () => {
    const clock = handClock('2026-11-25T18:04:09Z', 60);
    expect(stampOf(clock)).toEqual({ at: '2026-11-25T19:04:09.000+01:00', day: '2026-11-25' });
    clock.advance(HOUR);
    clock.set(Date.parse('2026-01-01T00:00:00Z'));
    expect(clock.monotonic()).toBe(HOUR);
    expect(stampOf(clock).day).toBe('2025-12-31');
  });
});
