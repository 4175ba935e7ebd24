/** The running sitting in words and numbers: worked out once for each of its states, however many places show it. */
import { remembered } from '../../common/remembered.ts';
import { type RunView, runView } from '../../plan/run/run-view.ts';
import type { Run } from '../../plan/run/running-routine.ts';
import type { Routine } from '../../plan/routine/routine.ts';
import type { Stand } from '../stand.ts';
import { routineNow } from './sitting.ts';

const viewOfRun = remembered((run: Run) => remembered((routine: Routine) => runView(run, routine)));

/** Null outside a sitting. */
export function runViewNow(stand: Stand): RunView | null {
  const routine = routineNow(stand);
  return stand.sitting && routine ? viewOfRun(stand.sitting.run)(routine) : null;
}
