/** The block's clock: what counts as played. */
import type { Seconds } from '../../common/units.ts';
import { minutesAndSeconds } from '../../common/time-words.ts';
import { endOf, endOfTime } from './block-end.ts';
import type { RunItem } from './run-items.ts';
import { isRest } from '../today/plan-items.ts';
import { toJournal, step, withItem } from './run-steps.ts';
import { type Run, type RunStep, current, isClockRunning, secondsLeft } from './run.ts';

/** No tick for so long means that the computer slept. */
export const GAP: Seconds = 10;
/** The journal hears of a block that goes on this often. */
export const SAY_EVERY: Seconds = 60;

function slept(run: Run, item: RunItem): RunStep {
  const left = minutesAndSeconds(secondsLeft(item));
  const remark = `The computer slept or was stopped; that time does not count. ${left} left.`;
  return step({ ...run, phase: run.phase === 'playing on' ? 'over' : 'paused', remark }, { do: 'still' });
}

/** So long into the next block a question about the one before can be answered from memory. */
export const ASKED_FOR: Seconds = 60;

/** A question is over once its time is; a rest leaves it all the time there is. */
function withQuestion(run: Run, item: RunItem): Run {
  const isOver = run.asked !== null && run.phase === 'playing' && !isRest(item) && item.played >= ASKED_FOR;
  return isOver ? { ...run, asked: null } : run;
}

/** Adds the time since the last event to what was played, if the clock runs. */
export function passTime(run: Run, now: Seconds): RunStep {
  const passed = Math.max(0, now - run.clock);
  const item = current(run);
  const timed: Run = { ...run, clock: now };
  if (item === null || !isClockRunning(run)) return step(timed);
  if (passed > (run.gap ?? GAP)) return slept(timed, item);
  const counted = withItem({ ...timed, unsaid: run.unsaid + passed }, { played: item.played + passed });
  const played = withQuestion(counted, current(counted) ?? item);
  if (run.phase === 'playing' && item.played + passed >= item.length) return endOfTime(played);
  return played.unsaid < SAY_EVERY ? step(played) : saidSoFar(played);
}

function saidSoFar(run: Run): RunStep {
  const item = run.items[run.at] as RunItem;
  const event = run.phase === 'playing' ? 'going' : endOf(run, item);
  return step({ ...run, unsaid: 0 }, ...toJournal(run, item, event));
}
