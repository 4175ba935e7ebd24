/**
 * A running routine as a state machine: (run, event) -> run and effects as data.
 *
 * Time is what a monotonic clock says, handed in with each event: midnight, another zone and a clock set
 * back do not touch it. While a block plays, a tick comes at least every second; so a gap of more than
 * GAP seconds means that the computer slept or the program was stopped. The time of a gap is not counted,
 * and the block waits for the player.
 */
import type { TensionLevel } from '../../diary/entry.ts';
import type { Seconds } from '../../common/units.ts';
import { back, extend, leave, next, skip, swap } from './between-blocks.ts';
import { passTime } from './block-clock.ts';
import { breath, unsay } from './breaths.ts';
import { type RunItem, plannedItem } from './run-items.ts';
import { step, andThen } from './run-steps.ts';
import type { Run, RunAction, RunEvent, RunStep } from './run.ts';
import { pause, start } from './start-and-pause.ts';

/** This file is the room's door: what others need of a run is here. */
export { addItem } from './added-item.ts';
export { GAP, SAY_EVERY } from './block-clock.ts';
export {
  type Phase,
  type Run,
  type RunAction,
  type RunEffect,
  type RunEvent,
  type RunStep,
  current,
  isClockRunning,
  secondsLeft,
} from './run.ts';

/** A new run of these items; the first effect writes the plan down, so that it can be gone on with. */
export function beginRun(routine: string, items: readonly RunItem[], now: Seconds): RunStep {
  const run: Run = {
    routine,
    items,
    at: 0,
    phase: 'ready',
    clock: now,
    unsaid: 0,
    breaths: 0,
    breathAt: 0,
    said: [],
    asked: null,
    remark: '',
  };
  const [first] = items;
  if (first === undefined) return step({ ...run, phase: 'finished' });
  const record = { kind: 'plan', routine, items: items.map(plannedItem) } as const;
  return step(run, { do: 'record', record }, { do: 'open', item: first });
}

const ACTIONS: Readonly<Record<RunAction, (run: Run) => RunStep>> = {
  start,
  pause,
  next,
  extend,
  skip,
  swap,
  back,
  breath,
  unsay,
  leave,
};

function tension(run: Run, level: TensionLevel): RunStep {
  if (run.asked === null) return step(run);
  const record = { kind: 'tension', level, exercise: run.asked.exercise } as const;
  return step({ ...run, asked: null, said: [...run.said, 'reading'] }, { do: 'record', record });
}

/**
 * What an event makes of the run, and what is to be done outside. Nothing happens to one that was left or is finished,
 * but its last block's tension may be told.
 */
export function runOn(run: Run, event: RunEvent): RunStep {
  if (event.type === 'tension') return andThen(passTime(run, event.now), (timed) => tension(timed, event.level));
  if (run.phase === 'left') return step(run);
  if (run.phase === 'finished') return event.type === 'do' && event.action === 'back' ? back(run) : step(run);
  const timed = passTime(run, event.now);
  if (event.type === 'tick') return timed;
  // A block that ended in the very moment of the key: the key was meant for it.
  if (timed.run.at !== run.at) return timed;
  return andThen(timed, ACTIONS[event.action]);
}
