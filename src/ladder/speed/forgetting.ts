/** What days without a mark do to what is known of a line: the interval grows, up to a point. */
import type { DayNumber } from '../../common/days.ts';
import type { DayKind } from './day-kinds.ts';
import { afterNights } from './grid-weights.ts';
import { type Rows, trimmed } from './row-blur.ts';

/** After so many days without a mark no more is forgotten. */
const FORGOTTEN_AFTER = 120;
/** A tempo at either end with less is dropped; nights bring it back. Keeps the work to where the player is. */
const NEGLIGIBLE = 1e-6;

/** What is believed on the morning of `day`, from the evening of `last`, the day of the newest mark. */
export function morningOf(evening: Rows, last: DayNumber | null, day: DayNumber, days: readonly DayKind[]): Rows {
  const nights = last === null ? 0 : Math.min(Math.max(day - last, 0), FORGOTTEN_AFTER);
  return nights === 0 ? evening : afterNights(trimmed(evening, NEGLIGIBLE), nights, days);
}
