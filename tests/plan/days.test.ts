import * as fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { dayPlus, daysBetween } from '../../src/common/days.ts';
import { dayOf } from '../../src/runtime/clock.ts';

// luxon, a calendar library with the system's time zone tables, is the outside reference here.
describe('days', () => {
  const day = fc
    .integer({ min: 0, max: 100_000 })
    .map((n) => DateTime.fromISO('1900-01-01', { zone: 'utc' }).plus({ days: n }));

  it('are added and subtracted as by a calendar library', () => {
    fc.assert(
      fc.property(day, fc.integer({ min: -40_000, max: 40_000 }), (from, n) => {
        const to = from.plus({ days: n });
        expect(dayPlus(from.toISODate() ?? '', n)).toBe(to.toISODate());
        expect(daysBetween(from.toISODate() ?? '', to.toISODate() ?? '')).toBe(n);
      }),
    );
  });

  // Both changes of the year in each: Europe, America, and a zone that changes by half an hour in the other half of the
  // year.
  it.each([
    ['Europe/Berlin', ['2026-03-28', '2026-10-24']],
    ['America/New_York', ['2026-03-07', '2026-10-31']],
    ['Australia/Lord_Howe', ['2026-04-04', '2026-10-03']],
  ])("the player's own day lasts from four to four over the clock changes in %s", (zone, starts) => {
    for (const start of starts) {
      let at = DateTime.fromISO(`${start}T00:00:00`, { zone });
      const end = at.plus({ days: 3 });
      for (; at < end; at = at.plus({ minutes: 30 })) {
        const own = at.hour < 4 ? at.minus({ days: 1 }) : at;
        expect(dayOf(at.toMillis(), at.offset), at.toISO() ?? '').toBe(own.toISODate());
      }
    }
  });
});
