/** What was asked to be kept is on disk: now, and only now, it counts. */
import type { LadderEntry, MarkEntry } from '../../diary/entry.ts';
import type { Bpm } from '../../common/units.ts';
import { type Step, step } from '../step.ts';
import type { Practice } from './line-on-stand.ts';
import { climbNow, isRunning } from './line-state.ts';
import { goOn, nextCycle, untilMarked } from './line-steps.ts';
import { breathThenCycle, cycle } from './repetition-cycle.ts';

/** Missed half way: breathe from the next bar line. Otherwise the next cycle follows the breathing bar. */
function afterMark(state: Practice, { bpm, by }: MarkEntry): Step<Practice> {
  if (!isRunning(state)) return step(state);
  if (state.phase === 'playing') return goOn(state, breathThenCycle(state, bpm, climbNow(state).bpm), true);
  // The rule's own mark was foreseen: the right cycle is already under way.
  return by === 'rule' ? step(state) : nextCycle(state);
}

/** Another tempo starts at the next bar line, with its count-in; what was not marked by then is dropped. */
function atOnce(state: Practice, before: Bpm): Step<Practice> {
  const { bpm } = climbNow(state);
  if (bpm === before) return step(state);
  const dropped: Practice = { ...state, due: null };
  return isRunning(state) ? goOn(dropped, cycle(dropped, bpm), true) : step(dropped);
}

/** A mark or a tempo by hand is kept. */
export function onMarked(state: Practice, entry: LadderEntry): Step<Practice> {
  const kept: Practice = { ...state, awaited: null, kept: [...state.kept, entry] };
  if (entry.kind === 'mark') return afterMark({ ...kept, due: null }, entry);
  return state.awaited === 'tempo under way' ? step(kept) : atOnce(kept, climbNow(state).bpm);
}

/** A mark taken back before the next repetition began leaves its repetition to be marked again. */
const isDueAgain = (state: Practice, undone: LadderEntry): undone is MarkEntry =>
  undone.kind === 'mark' && state.due === null && state.phase !== 'count-in' && state.phase !== 'slow';

/** An entry counts no more: the ladder is what the others make of it. */
export function onTakenBack(state: Practice, of: string): Step<Practice> {
  const undone = state.kept.find(({ id }) => id === of);
  const without: Practice = { ...state, awaited: null, kept: state.kept.filter(({ id }) => id !== of) };
  if (!undone || !isDueAgain(state, undone)) return atOnce(without, climbNow(state).bpm);
  const due: Practice = { ...without, due: { bpm: undone.bpm, early: null } };
  return isRunning(due) ? untilMarked(due) : step(due);
}
