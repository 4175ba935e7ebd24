/** When something is due again, by the days since it was played. */
import { daysBetween } from '../../common/days.ts';
import type { PlayedBefore } from './played-before.ts';

/** Due at most so many times over. */
export const MOST_DUE = 3;

/** How many days before its day a block already presses: a sitting may be cut off. */
export const marginOf = (everyDays: number): number => (everyDays >= 7 ? 2 : everyDays >= 3 ? 1 : 0);

/** How due something is, and what is said of it. */
export interface Due {
  readonly due: number;
  /** Its day has come, or nearly. */
  readonly presses: boolean;
  readonly said: string;
}

const since = (days: number): string => {
  if (days === 0) return 'played today already';
  return days === 1 ? 'last played yesterday' : `last played ${days} days ago`;
};

export const NOT_PLAYED = 'not played yet';

/** Days that something has waited: since it was played, or since anything was first played. */
export interface Waited {
  readonly ago: number;
  readonly isNew: boolean;
}

export const waitedSince = (before: PlayedBefore, day: string | null): Waited => ({
  ago: daysBetween(day ?? before.firstDay, before.day),
  isNew: day === null,
});

/** Due by its days: 1 on its day, up to three times as much. */
export function dueAfter({ ago, isNew }: Waited, everyDays: number): Due {
  const presses = everyDays > 1 && ago >= everyDays - marginOf(everyDays);
  const due = Math.min(Math.max(ago / everyDays, isNew ? 1 : 0), MOST_DUE);
  if (isNew) return { due, presses, said: NOT_PLAYED };
  return {
    due,
    presses,
    said: everyDays === 1 ? `every day, ${since(ago)}` : `${since(ago)}, due every ${everyDays} days`,
  };
}
