/** What days without a mark do to what is known of a line: the interval grows, up to a point. */
import type { DayNumber } from '../../common/days.ts';
import { type GridWeights, spreadTempo } from './grid-weights.ts';

/** How far a player's speed wanders in a day, natural log: 1 %. */
const DAILY_DRIFT = 0.01;
/** After so many days without a mark no more is forgotten. */
const FORGOTTEN_AFTER = 120;

/** The weights of `last`, the day of the newest mark, as they are on a later day. */
export function afterDays(weights: GridWeights, last: DayNumber | null, day: DayNumber): GridWeights {
  const days = last === null ? 0 : Math.min(Math.max(day - last, 0), FORGOTTEN_AFTER);
  return days === 0 ? weights : spreadTempo(weights, days * DAILY_DRIFT ** 2);
}
