/**
 * A mark or a tempo by hand counts no more: what that leaves of the ladder, and whether its repetition is due again.
 */
import type { LadderEntry, MarkEntry } from '../../diary/entry.ts';
import { type Step, step } from '../step.ts';
import type { Practice } from './line-on-stand.ts';
import { climbNow, isRunning, ruleOf } from './line-state.ts';
import { atOnce, untilMarked } from './line-steps.ts';
import { takenBack } from './what-happened.ts';

/** A mark taken back before the next repetition began leaves its repetition to be marked again. */
const isDueAgain = (state: Practice, undone: LadderEntry): undone is MarkEntry =>
  undone.kind === 'mark' && state.due === null && state.phase !== 'count-in' && state.phase !== 'slow';

/** An entry counts no more: the ladder is what the others make of it. */
export function onTakenBack(state: Practice, of: string): Step<Practice> {
  const undone = state.kept.find(({ id }) => id === of);
  const left: Practice = { ...state, awaited: null, kept: state.kept.filter(({ id }) => id !== of) };
  const without: Practice = undone
    ? { ...left, happened: takenBack(climbNow(left), ruleOf(left).cleanUp, state.phase) }
    : left;
  if (!undone || !isDueAgain(state, undone)) return atOnce(without, climbNow(state).bpm);
  const due: Practice = { ...without, due: { bpm: undone.bpm, early: null } };
  return isRunning(due) ? untilMarked(due) : step(due);
}
