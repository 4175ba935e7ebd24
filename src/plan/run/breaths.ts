/** Breaths of a block that counts them. */
import type { Seconds } from '../../common/units.ts';
import type { EachBreath } from '../routine/exercise.ts';
import { endOfTime } from './block-end.ts';
import type { RunItem } from './run-items.ts';
import { step, toJournal, withItem } from './run-steps.ts';
import { type Run, type RunStep, current, isClockRunning } from './run.ts';

/** One breath more; with the last one the block is over, whatever its clock says. */
export function breath(run: Run): RunStep {
  const item = current(run);
  if (item === null || item.breaths === null || !isClockRunning(run) || run.breaths >= item.breaths) return step(run);
  const said = [...run.said, { breathAt: run.breathAt }];
  const counted: Run = { ...run, breaths: run.breaths + 1, breathAt: item.played, said };
  return run.phase === 'playing' && counted.breaths >= item.breaths ? endOfTime(counted) : step(counted);
}

/** A block that its last breath ended is open again, and its clock waits. */
function reopened(run: Run, item: RunItem): RunStep {
  const open = withItem({ ...run, phase: 'paused', asked: null }, { state: 'open' });
  return step(open, ...toJournal(open, current(open) ?? item, 'going'));
}

/** Takes back what was said last: a breath that was counted is counted no more, and goes on from where it began. */
export function unsay(run: Run): RunStep {
  const item = current(run);
  const last = run.said.at(-1);
  if (item === null || last === undefined) return step(run);
  const before: Run = { ...run, said: run.said.slice(0, -1) };
  if (last === 'reading') return step(before);
  const fewer: Run = { ...before, breaths: run.breaths - 1, breathAt: last.breathAt };
  const wasLast = run.phase === 'over' && run.breaths === item.breaths && item.played < item.length;
  return wasLast ? reopened(fewer, item) : step(fewer);
}

/** Where a breath is that began so many seconds ago. */
export interface BreathNow {
  readonly stage: 'out' | 'wait' | 'back' | 'over';
  /** Of this stage. */
  readonly seconds: Seconds;
}

/** `breathNow({ out: 6, wait: 2, back: 4 }, 7)` waits for a second; after its seconds a breath is over. */
export function breathNow({ out, wait, back }: EachBreath, seconds: Seconds): BreathNow {
  if (seconds < out) return { stage: 'out', seconds };
  if (seconds < out + wait) return { stage: 'wait', seconds: seconds - out };
  const coming = seconds - out - wait;
  return coming < back ? { stage: 'back', seconds: coming } : { stage: 'over', seconds: coming - back };
}

/** How full the lungs are, 0 to 1: even on the way out and back. */
export function fullness(each: EachBreath, seconds: Seconds): number {
  const now = breathNow(each, seconds);
  if (now.stage === 'out') return 1 - now.seconds / each.out;
  if (now.stage === 'wait') return 0;
  return now.stage === 'back' ? now.seconds / each.back : 1;
}

export const lengthOfBreath = ({ out, wait, back }: EachBreath): Seconds => out + wait + back;

/** For how long the breath at hand has lasted. */
export const secondsOnBreath = ({ breathAt }: Run, { played }: RunItem): Seconds => played - breathAt;

/** The usual caution for work with empty lungs; common practice, no source. */
export const BREATH_CAUTION = 'Dizzy? Stop, and breathe as you like. Ask your teacher or a clinician.';

const ENDED: readonly Run['phase'][] = ['over', 'playing on'];

/** '3 of 12 breaths', '7 s on this one': the seconds as long as breaths are to come. Nothing where none are counted. */
export function breathWords(run: Run, item: RunItem): readonly string[] {
  const { breaths, phase } = run;
  if (item.breaths === null) return [];
  const count = `${breaths} of ${item.breaths} breaths`;
  const isToCome = breaths < item.breaths && !ENDED.includes(phase);
  return isToCome ? [count, `${Math.floor(secondsOnBreath(run, item))} s on this one`] : [count];
}
