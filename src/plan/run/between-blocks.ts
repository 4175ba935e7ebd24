/** What the player does with the blocks of a sitting: the next one, a minute more, left out, swapped, back. */
import type { Seconds } from '../../common/units.ts';
import { finishItem, moveOn, openAt, sayRest } from './block-end.ts';
import { type RunItem, sameBlock } from './run-items.ts';
import { isRest } from '../today/plan-items.ts';
import { step, andThen, toJournal, withItem } from './run-steps.ts';
import { type Run, type RunStep, current, secondsLeft } from './run.ts';

/** What 'extend' adds, and what going back to a finished block gives it. */
const EXTRA: Seconds = 60;

/** A block that was not begun is passed over: nothing happened that the journal could be told. */
const passOver = (run: Run): RunStep => step(withItem(run, { state: 'skipped' }));

function closed(run: Run): RunStep {
  if (run.phase === 'over' || run.phase === 'playing on') return sayRest(run);
  return run.phase === 'ready' && current(run)?.played === 0 ? passOver(run) : finishItem(run);
}

/** Its clock runs if the present one's did, or waited for the player at the end. */
export const next = (run: Run): RunStep =>
  andThen(closed(run), (done) => moveOn(done, run.phase !== 'ready' && run.phase !== 'paused'));

/** A minute more; one whose time was up goes on. */
export function extend(run: Run): RunStep {
  const item = current(run);
  if (item === null) return step(run);
  const longer = withItem(run, { length: Math.max(item.length, item.played) + EXTRA, state: 'open' });
  const isOver = run.phase === 'over' || run.phase === 'playing on';
  const record = toJournal(longer, longer.items[run.at] as RunItem, 'going');
  const extended = step({ ...longer, phase: isOver ? 'playing' : run.phase }, ...record);
  return run.phase === 'over' ? andThen(extended, (going) => step(going, { do: 'play' })) : extended;
}

/** Leaves out all that is open of the current block. */
export function skip(run: Run): RunStep {
  const item = current(run);
  if (item === null) return step(run);
  const isLeftOut = (one: RunItem, i: number): boolean =>
    one.state === 'open' && (isRest(item) ? i === run.at : sameBlock(one, item));
  const items = run.items.map((one, i) => (isLeftOut(one, i) ? { ...one, state: 'skipped' as const } : one));
  const skipped: Run = { ...run, items };
  const left = run.items.some(isLeftOut) ? step(skipped, ...toJournal(skipped, item, 'skipped')) : sayRest(skipped);
  return andThen(left, (done) => moveOn(done, false));
}

/** The current item changes places with the next open one that is no rest. */
export function swap(run: Run): RunStep {
  const item = current(run);
  const other = run.items.findIndex((one, i) => i > run.at && one.state === 'open' && !isRest(one));
  if (item === null || item.state !== 'open' || isRest(item) || other < 0)
    return step({ ...run, remark: 'There is nothing after this block to swap it with.' });
  const items = run.items.with(run.at, run.items[other] as RunItem).with(other, item);
  return andThen(sayRest(run), (said) =>
    step(openAt({ ...said, items }, run.at), { do: 'open', item: items[run.at] as RunItem }),
  );
}

/** To the block before; one whose time was up gets a little more. */
export function back(run: Run): RunStep {
  const at = run.items.findLastIndex((item, i) => i < run.at && !isRest(item));
  const before = run.items[at];
  if (before === undefined) return step({ ...run, remark: 'This is the first block.' });
  const length = secondsLeft(before) < EXTRA ? before.played + EXTRA : before.length;
  return andThen(sayRest(run), (said) => {
    const opened = openAt(withItem(said, { state: 'open', length }, at), at);
    return step(opened, { do: 'open', item: opened.items[at] as RunItem });
  });
}

/** What was played is kept; the sitting can be gone on with later. */
export const leave = (run: Run): RunStep =>
  andThen(sayRest(run), (said) => step({ ...said, phase: 'left' }, { do: 'still' }));
