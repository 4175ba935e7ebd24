/** Breaths of a block that counts them. */
import { endOfTime } from './block-end.ts';
import type { RunItem } from './run-items.ts';
import { step } from './run-steps.ts';
import { type Run, type RunStep, current, isClockRunning } from './run.ts';

/** One breath more; with the last one the block is over, whatever its clock says. */
export function breath(run: Run): RunStep {
  const item = current(run);
  if (item === null || item.breaths === null || !isClockRunning(run) || run.breaths >= item.breaths) return step(run);
  const counted: Run = { ...run, breaths: run.breaths + 1, breathAt: item.played };
  return run.phase === 'playing' && counted.breaths >= item.breaths ? endOfTime(counted) : step(counted);
}

const ENDED: readonly Run['phase'][] = ['over', 'playing on'];

/** '3 of 12 breaths', '7 s on this one': the seconds as long as breaths are to come. Nothing where none are counted. */
export function breathWords({ breaths, breathAt, phase }: Run, item: RunItem): readonly string[] {
  if (item.breaths === null) return [];
  const count = `${breaths} of ${item.breaths} breaths`;
  const isToCome = breaths < item.breaths && !ENDED.includes(phase);
  return isToCome ? [count, `${Math.floor(item.played - breathAt)} s on this one`] : [count];
}
