/**
 * A mark or a tempo by hand counts no more: what that leaves of the ladder, and whether its repetition is due again.
 */
import type { LadderEntry, MarkEntry } from '../../diary/entry.ts';
import { type Step, step } from '../step.ts';
import type { Practice } from './line-on-stand.ts';
import { climbNow, isRunning, ruleOf, spanHeard } from './line-state.ts';
import { atOnce, flowOn, untilMarked } from './line-steps.ts';
import { flows } from './repetition-cycle.ts';
import { takenBack } from './what-happened.ts';

/** A mark taken back before the next repetition began leaves its repetition to be marked again. */
const isDueAgain = (state: Practice, undone: LadderEntry): undone is MarkEntry =>
  undone.kind === 'mark' && state.due === null && state.phase !== 'count-in' && state.phase !== 'slow';

/**
 * Where repetitions run on, the mark that was taken back was that of the repetition before, if the one that sounds has
 * its tempo: it can be given anew, and what sounds goes on. Null where it was not.
 */
function beforeAgain(state: Practice, undone: LadderEntry): Practice['before'] {
  if (undone.kind !== 'mark' || !flows(state) || state.phase !== 'playing' || state.before) return null;
  const { bpm } = undone;
  const isAtIt = spanHeard(state)?.tempo.bpm === bpm && climbNow(state).bpm === bpm;
  return isAtIt ? { bpm, early: null } : null;
}

/** An entry counts no more: the ladder is what the others make of it. */
export function onTakenBack(state: Practice, of: string): Step<Practice> {
  const undone = state.kept.find(({ id }) => id === of);
  const left: Practice = { ...state, awaited: null, kept: state.kept.filter(({ id }) => id !== of) };
  if (!undone) return atOnce(left, climbNow(state).bpm);
  const happened = takenBack(climbNow(left), ruleOf(left).cleanUp, state.phase);
  const without: Practice = { ...left, happened };
  const before = beforeAgain(without, undone);
  if (before) return flowOn({ ...without, before, due: state.due ?? before });
  if (!isDueAgain(state, undone)) return atOnce(without, climbNow(state).bpm);
  const due: Practice = { ...without, due: { bpm: undone.bpm, early: null } };
  return isRunning(due) ? untilMarked(due) : step(due);
}
