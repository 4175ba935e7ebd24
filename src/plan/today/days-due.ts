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

const played = (ago: number): string => {
  if (ago === 0) return 'played today already';
  return ago === 1 ? 'played yesterday' : `played ${ago} days ago`;
};

/** 'every day, played yesterday'; 'due: 3 of 5 days'. */
function said({ ago }: Waited, everyDays: number): string {
  if (everyDays === 1) return `every day, ${played(ago)}`;
  return ago === 0 ? played(ago) : `due: ${ago} of ${everyDays} days`;
}

const NOT_PLAYED = 'not played yet';

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
export function dueAfter(waited: Waited, everyDays: number): Due {
  const { ago, isNew } = waited;
  const presses = everyDays > 1 && ago >= everyDays - marginOf(everyDays);
  const due = Math.min(Math.max(ago / everyDays, isNew ? 1 : 0), MOST_DUE);
  return { due, presses, said: isNew ? NOT_PLAYED : said(waited, everyDays) };
}

/** What presses is due now, be it by its own day or by those of its pool: 'due now: 5 of 5 days'. */
export const dueInWords = ({ presses, said: words }: Due): string =>
  presses ? words.replace(/^due:/, 'due now:') : words;
