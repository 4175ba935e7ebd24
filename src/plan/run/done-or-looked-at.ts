/** Whether a block that ends was done, or only looked at and as due as before. */
import { type RunItem, total } from './run-items.ts';

/** Less of a block was a look at it: it was not done, and is as due as before. */
const LEAST_SHARE = 1 / 3;

/** Whether so much of a block's turns was played, earlier today included, that it counts as done when it ends. */
export const isWellBegun = (turns: readonly RunItem[]): boolean => {
  const before = turns[0]?.before ?? 0;
  return before + total(turns, 'played') >= (before + total(turns, 'length')) * LEAST_SHARE;
};
