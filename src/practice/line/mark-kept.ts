/** What was asked to be kept is on disk: now, and only now, it counts. */
import type { LadderEntry, MarkEntry } from '../../diary/entry.ts';
import { type Step, step } from '../step.ts';
import type { Practice } from './line-on-stand.ts';
import { climbNow, isRunning } from './line-state.ts';
import { atOnce, goOn, nextCycle } from './line-steps.ts';
import { breathThenCycle } from './repetition-cycle.ts';

/** Missed half way: breathe from the next bar line. Otherwise the next cycle follows the breathing bar. */
function afterMark(state: Practice, { bpm, by }: MarkEntry): Step<Practice> {
  if (!isRunning(state)) return step(state);
  if (state.phase === 'playing') return goOn(state, breathThenCycle(state, bpm, climbNow(state).bpm), true);
  // The rule's own mark was foreseen: the right cycle is already under way.
  return by === 'rule' ? step(state) : nextCycle(state);
}

/** A mark or a tempo by hand is kept. */
export function onMarked(state: Practice, entry: LadderEntry): Step<Practice> {
  const kept: Practice = { ...state, awaited: null, kept: [...state.kept, entry] };
  if (entry.kind === 'mark') return afterMark({ ...kept, due: null }, entry);
  return state.awaited === 'tempo under way' ? step(kept) : atOnce(kept, climbNow(state).bpm);
}
