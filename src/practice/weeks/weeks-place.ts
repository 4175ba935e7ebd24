/** Where in the weeks the player is: which page, what is looked for, what is under the finger. */
import type { Kind } from '../../plan/routine/exercise.ts';

/** In the order in which one turns them; 'line' is opened from a row. */
export const PAGES = ['lines', 'coverage', 'minutes', 'bests'] as const;
export type WeeksPage = (typeof PAGES)[number] | 'line';

/** What alone is shown; null is everything. */
export interface Only {
  readonly exercise: string | null;
  readonly articulation: string | null;
  readonly kind: Kind | null;
}

export const EVERYTHING: Only = { exercise: null, articulation: null, kind: null };

export interface WeeksPlace {
  readonly page: WeeksPage;
  /** The row under the finger on the pages of lines and bests. */
  readonly row: number;
  /** What the lines are looked for by. */
  readonly typed: string;
  readonly isTyping: boolean;
  readonly only: Only;
  /** The line that is looked at over time, by its name. */
  readonly line: string | null;
  /** The cell of the coverage under the finger: a row of it, and a key. */
  readonly cell: { readonly row: number; readonly key: number };
}

export const FIRST_PAGE: WeeksPlace = {
  page: 'lines',
  row: 0,
  typed: '',
  isTyping: false,
  only: EVERYTHING,
  line: null,
  cell: { row: 0, key: 0 },
};

/** Pages of the weeks, what is looked for there, and what is done with what was found. */
export type WeeksAction =
  'page' | 'coverage' | 'minutes' | 'bests' | 'waits' | 'grows' | 'find' | 'one-exercise' | 'one-kind' | 'put-on-stand';
