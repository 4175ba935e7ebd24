/** The end of a block: whether it was done, what is asked after it, and what comes then. */
import { isWellBegun } from './done-or-looked-at.ts';
import type { Seconds } from '../../common/units.ts';
import type { BlockEvent } from '../../diary/entry.ts';
import { type RunItem, isBlockOver, sameBlock } from './run-items.ts';
import { isRest } from '../today/plan-items.ts';
import { step, andThen, toJournal, withItem } from './run-steps.ts';
import { start } from './start-and-pause.ts';
import { type Run, type RunStep, current } from './run.ts';

/** Less is 0:00 wherever it is shown: nothing was played. */
const SHOWN: Seconds = 1;

const isWork = (item: RunItem): boolean => item.state === 'open' && !isRest(item);

/** What is open after an item, else what was left open before it; a rest only where work follows. */
function openAfter({ items, at }: Run): number {
  const later = items.findIndex(
    (item, i) => i > at && item.state === 'open' && (isWork(item) || items.slice(i).some(isWork)),
  );
  return later >= 0 ? later : items.findIndex((item, i) => i !== at && isWork(item));
}

/** What comes next, to be shown ahead; null after the last. */
export const nextItem = (run: Run): RunItem | null => run.items[openAfter(run)] ?? null;

/** An item laid ready. */
export const openAt = (run: Run, at: number): Run => ({
  ...run,
  at,
  phase: 'ready',
  breaths: 0,
  breathAt: run.items[at]?.played ?? 0,
  said: [],
  unsaid: 0,
});

/** To the next open item, playing at once if asked. */
export function moveOn(run: Run, playAtOnce: boolean): RunStep {
  const at = openAfter(run);
  const item = run.items[at];
  if (item === undefined) return step({ ...run, at: run.items.length, phase: 'finished' }, { do: 'still' });
  const opened = step(openAt(run, at), { do: 'open', item });
  return playAtOnce ? andThen(opened, start) : opened;
}

/** Played for long enough to count, or to its last breath. */
const countsAsDone = (run: Run, items: readonly RunItem[]): boolean =>
  run.items.some(({ breaths }, i) => i === run.at && breaths !== null && run.breaths >= breaths) || isWellBegun(items);

const turnsOf = ({ items }: Run, item: RunItem): readonly RunItem[] => items.filter((one) => sameBlock(one, item));

/** How the journal hears of the end of an item: its block is done when no turn of it is open any more. */
export const endOf = (run: Run, item: RunItem): BlockEvent =>
  isBlockOver(run.items, item) && countsAsDone(run, turnsOf(run, item)) ? 'done' : 'left';

/**
 * The current item is over: the journal hears it, and its tension may be told if it was played at all. One gone on
 * from in its first third was not done.
 */
export function finishItem(run: Run): RunStep {
  const item = current(run);
  if (item === null) return step(run);
  const done = withItem(run, { state: isRest(item) || countsAsDone(run, [item]) ? 'done' : 'skipped' });
  const isAsked = !isRest(item) && item.played >= SHOWN;
  const asked = isAsked ? { title: item.title, exercise: item.exercise } : run.asked;
  return step({ ...done, asked, unsaid: 0 }, ...toJournal(done, item, endOf(done, item)));
}

/** The time is up, or the last breath was counted. */
export function endOfTime(run: Run): RunStep {
  const item = current(run);
  const ended = andThen(finishItem(run), (done) => step({ ...done, phase: 'over' }, { do: 'chime' }));
  return item !== null && (item.atEnd === 'go on' || isRest(item))
    ? andThen(ended, (done) => moveOn(done, true))
    : ended;
}

/** What the journal has not heard of an item that is left, whether its time is up or not. */
export function sayRest(run: Run): RunStep {
  const item = current(run);
  const isBegun = item !== null && item.state === 'open' && item.played > 0;
  if (item === null || !(isBegun || run.unsaid > 0)) return step(run);
  return step({ ...run, unsaid: 0 }, ...toJournal(run, item, endOf(run, item)));
}
