/** The clock, handed in. Wall time names moments; only the monotonic time measures how long something took. */
import { DAY_START, dateAndTime, dateOf, dayNumberAt } from '../common/days.ts';
import type { Milliseconds } from '../common/units.ts';

export interface Clock {
  /** Milliseconds since 1970 UTC; may jump when the clock is set. */
  readonly wall: () => Milliseconds;
  /** Minutes east of UTC at a wall time, where the player is. */
  readonly offsetAt: (wall: Milliseconds) => number;
  /** Milliseconds from some start; never goes back, and stands still while a laptop sleeps. */
  readonly monotonic: () => Milliseconds;
  /** How many of its seconds pass in one; 1 when absent. */
  readonly rate?: number;
}

export const systemClock: Clock = {
  wall: Date.now,
  offsetAt: (wall) => -new Date(wall).getTimezoneOffset(),
  monotonic: () => performance.now(),
};

/** The system's clock run so many times as fast from now on, to see a whole sitting in a minute. */
export function fasterClock(rate: number, clock: Clock = systemClock): Clock {
  const [wall, monotonic] = [clock.wall(), clock.monotonic()];
  return {
    rate,
    wall: () => wall + (clock.wall() - wall) * rate,
    offsetAt: clock.offsetAt,
    monotonic: () => monotonic + (clock.monotonic() - monotonic) * rate,
  };
}

/** A clock that moves only when told to. */
export interface HandClock extends Clock {
  readonly advance: (by: Milliseconds) => void;
  /** Sets the wall time as a person sets a watch: monotonic time does not notice. */
  readonly set: (wall: Milliseconds) => void;
}

/** `handClock('2026-11-25T18:04:09Z', 60)` stands still in a zone one hour east of UTC. */
export function handClock(start: string, offset = 0): HandClock {
  let wall = Date.parse(start);
  let monotonic = 0;
  return {
    wall: () => wall,
    offsetAt: () => offset,
    monotonic: () => monotonic,
    advance: (by) => {
      wall += by;
      monotonic += by;
    },
    set: (to) => {
      wall = to;
    },
  };
}

const MINUTE = 60_000;
const two = (n: number): string => String(n).padStart(2, '0');

function zone(offset: number): string {
  const minutes = Math.abs(offset);
  return `${offset < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

/** Local date and time with offset: `atOf(0, 60)` is '1970-01-01T01:00:00.000+01:00'. */
export const atOf = (wall: Milliseconds, offset: number): string => dateAndTime(wall + offset * MINUTE) + zone(offset);

export { DAY_START };

/** The player's own day, 'YYYY-MM-DD'. */
export const dayOf = (wall: Milliseconds, offset: number, dayStart = DAY_START): string =>
  dateOf(dayNumberAt(wall + (offset - dayStart) * MINUTE));

/** What an entry says about its moment. */
export function stampOf(clock: Clock, dayStart = DAY_START): { readonly at: string; readonly day: string } {
  const wall = clock.wall();
  const offset = Math.round(clock.offsetAt(wall));
  return { at: atOf(wall, offset), day: dayOf(wall, offset, dayStart) };
}
