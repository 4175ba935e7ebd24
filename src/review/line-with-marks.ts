import type { LineHistory } from '../ladder/speed/line-history.ts';

/** What a review is made from: every line that was marked, by its id. The journal's fold is one. */
export interface Marked {
  readonly lines: ReadonlyMap<string, LineHistory>;
}
