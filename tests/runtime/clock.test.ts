import { DateTime } from 'luxon';
import { describe, expect, it, vi } from 'vitest';
import { atOf, dayOf, fasterClock, handClock, stampOf, systemClock } from '../../src/runtime/clock.ts';

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

describe('the system’s clock', () => {
  it('goes by the machine’s own time', () => {
    const before = Date.now();
    const wall = systemClock.wall();
    expect(wall >= before && wall <= Date.now()).toBe(true);
    const started = performance.now();
    const monotonic = systemClock.monotonic();
    expect(monotonic >= started && monotonic <= performance.now()).toBe(true);
  });

  it('counts minutes east of UTC, where ECMA-262 counts them west', () => {
    const west = vi.spyOn(Date.prototype, 'getTimezoneOffset').mockImplementation(function june(this: Date) {
      return this.getUTCMonth() === 5 ? -120 : 210;
    });
    expect(systemClock.offsetAt(Date.parse('2026-06-15T12:00:00Z'))).toBe(120);
    expect(systemClock.offsetAt(Date.parse('2026-07-15T12:00:00Z'))).toBe(-210);
    west.mockRestore();
  });
});

describe('a clock that runs faster', () => {
  it('begins where the other is, and then takes so many seconds for one', () => {
    const slow = handClock('2026-11-25T18:04:09Z', 60);
    slow.advance(5000);
    const fast = fasterClock(40, slow);
    expect([fast.wall(), fast.monotonic(), fast.rate]).toEqual([slow.wall(), 5000, 40]);
    slow.advance(1000);
    expect(fast.wall()).toBe(Date.parse('2026-11-25T18:04:54Z'));
    expect(fast.monotonic()).toBe(45_000);
    expect(fast.offsetAt(0)).toBe(60);
  });
});

describe('a clock moved by hand', () => {
  it('moves both times when it is moved on', () => {
    const clock = handClock('2026-11-25T18:04:09Z');
    clock.advance(1500);
    expect([clock.wall(), clock.monotonic(), clock.offsetAt(0)]).toEqual([
      Date.parse('2026-11-25T18:04:10.500Z'),
      1500,
      0,
    ]);
  });

  it('writes an offset of nothing as +00:00, and rounds one that is no whole minute', () => {
    expect(stampOf(handClock('2026-11-25T18:04:09Z'), 0).at).toBe('2026-11-25T18:04:09.000+00:00');
    expect(stampOf(handClock('2026-11-25T18:04:09Z', -210.4), 0).at).toBe('2026-11-25T14:34:09.000-03:30');
  });

  it('takes the day’s start from its player', () => {
    const clock = handClock('2026-11-25T05:30:00Z');
    expect(stampOf(clock, 330).day).toBe('2026-11-25');
    expect(stampOf(clock, 331).day).toBe('2026-11-24');
    expect(stampOf(clock).day).toBe('2026-11-25');
  });

  it('is set without the monotonic time noticing', () => {
    const clock = handClock('2026-11-25T18:04:09Z', 60);
    expect(stampOf(clock)).toEqual({ at: '2026-11-25T19:04:09.000+01:00', day: '2026-11-25' });
    clock.advance(HOUR);
    clock.set(Date.parse('2026-01-01T00:00:00Z'));
    expect(clock.monotonic()).toBe(HOUR);
    expect(stampOf(clock).day).toBe('2025-12-31');
  });
});
