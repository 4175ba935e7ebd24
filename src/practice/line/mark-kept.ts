/** What was asked to be written is on disk: now, and only now, it counts. */
import type { Climb } from '../../ladder/rule/climb.ts';
import { rungsOf } from '../../ladder/rule/rungs.ts';
import type { Bpm } from '../../common/units.ts';
import { breathThenCycle, cycle } from './repetition-cycle.ts';
import { type Done, type Practice, type Saving, type Step, isRunning } from './line-on-stand.ts';
import { goOn, nextCycle, stay, untilMarked } from './line-steps.ts';

type Saved<What extends Saving['what']> = Extract<Saving, { what: What }>;

const withClimb = (state: Practice, climb: Climb): Practice => ({
  ...state,
  climb,
  saving: null,
  rungs: state.rungs.includes(climb.bpm) ? state.rungs : rungsOf(state.rule, [...state.rungs, climb.bpm]),
});

const remember = (state: Practice, done: Done): Practice => ({ ...state, done: [...state.done, done] });

/** Missed half way: breathe from the next bar line. Otherwise the next cycle follows the breathing bar. */
function afterMark(state: Practice, saved: Saved<'mark'>): Step<Practice> {
  if (!isRunning(state)) return stay(state);
  if (state.phase === 'playing') {
    return goOn(state, breathThenCycle(state, saved.bpm, state.climb.bpm), true);
  }
  // The rule's own mark was foreseen: the right cycle is already under way.
  return saved.by === 'rule' ? stay(state) : nextCycle(state);
}

function onMark(state: Practice, saved: Saved<'mark'>, id: string): Step<Practice> {
  const done = { id, mark: saved.mark, bpm: saved.bpm, before: { ...state.climb, bpm: saved.bpm } };
  const marked: Practice = { ...remember(withClimb(state, saved.next), done), due: null };
  return afterMark(marked, saved);
}

/** A change of tempo by hand starts at the next bar line, with its count-in; what was not marked by then is dropped. */
function atOnce(state: Practice, before: Bpm): Step<Practice> {
  if (state.climb.bpm === before) return stay(state);
  const dropped: Practice = { ...state, due: null };
  return isRunning(state) ? goOn(dropped, cycle(dropped, state.climb.bpm), true) : stay(dropped);
}

function onTempo(state: Practice, saved: Saved<'tempo'>, id: string): Step<Practice> {
  const done = { id, mark: null, bpm: saved.next.bpm, before: state.climb };
  const moved = remember(withClimb(state, saved.next), done);
  return saved.follows ? stay(moved) : atOnce(moved, state.climb.bpm);
}

/** A mark taken back before the next repetition began leaves its repetition to be marked again. */
const isDueAgain = (state: Practice, undone: Done): boolean =>
  undone.mark !== null && state.due === null && state.phase !== 'count-in' && state.phase !== 'slow';

function onUndo(state: Practice, { undone }: Saved<'undo'>): Step<Practice> {
  const restored: Practice = { ...withClimb(state, undone.before), done: state.done.slice(0, -1) };
  if (!isDueAgain(state, undone)) return atOnce(restored, state.climb.bpm);
  const due: Practice = { ...restored, due: { bpm: undone.bpm, early: null } };
  return isRunning(due) ? untilMarked(due) : stay(due);
}

export function onStored(state: Practice, id: string): Step<Practice> {
  const { saving } = state;
  switch (saving?.what) {
    case 'mark':
      return onMark(state, saving, id);
    case 'tempo':
      return onTempo(state, saving, id);
    case 'undo':
      return onUndo(state, saving);
    default:
      return stay(state);
  }
}
