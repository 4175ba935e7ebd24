/** What was asked to be kept is on disk: now, and only now, it counts. Or it is not. */
import type { LadderEntry, MarkEntry } from '../../diary/entry.ts';
import { type Step, step } from '../step.ts';
import type { Practice } from './line-on-stand.ts';
import { climbNow, isRunning, spanHeard } from './line-state.ts';
import { atOnce, breathWithoutMark, flowOn, goOn, nextCycle } from './line-steps.ts';
import { breathThenCycle, flows, isSlow } from './repetition-cycle.ts';
import { whatMarkDid } from './what-happened.ts';

/** Whether the player is being led into a repetition at the ladder's tempo already: nothing is counted in twice. */
const isUnderWay = (state: Practice): boolean =>
  (state.phase === 'count-in' || state.phase === 'slow') &&
  state.chain.some((span) => span.role === 'repetition' && !isSlow(span) && span.tempo.bpm === climbNow(state).bpm);

const isAtItsTempo = (state: Practice): boolean => spanHeard(state)?.tempo.bpm === climbNow(state).bpm;

/**
 * The repetition before the one that sounds is marked. At another tempo the one that sounds is not marked: after a
 * climb it is played to its end, after a fall it ends at the next bar line.
 */
function afterMarkOfBefore(state: Practice, { bpm, next }: MarkEntry): Step<Practice> {
  if (isAtItsTempo(state)) return flows(state) ? flowOn(state) : step(state);
  const dropped: Practice = { ...state, due: null, before: null };
  return goOn(dropped, breathThenCycle(dropped, bpm, climbNow(state).bpm), next < bpm);
}

/** Missed half way: breathe from the next bar line. Otherwise the next cycle follows the breathing bar. */
function afterMark(state: Practice, { bpm }: MarkEntry): Step<Practice> {
  if (!isRunning(state)) return step(state);
  if (state.phase === 'breathing' && flows(state) && isAtItsTempo(state)) return flowOn(state);
  if (state.phase === 'playing') return goOn(state, breathThenCycle(state, bpm, climbNow(state).bpm), true);
  return isUnderWay(state) ? step(state) : nextCycle(state);
}

/** Which repetition was marked is known from what was awaited. */
function afterAnyMark(state: Practice, entry: MarkEntry, awaited: Practice['awaited']): Step<Practice> {
  if (awaited !== 'mark of the one before' && awaited !== 'mark by rule')
    return afterMark({ ...state, due: null }, entry);
  const marked: Practice = awaited === 'mark by rule' ? state : { ...state, before: null };
  if (!isRunning(marked)) return step(marked);
  return marked.phase === 'playing'
    ? afterMarkOfBefore(marked, entry)
    : isAtItsTempo(marked)
      ? step(marked)
      : nextCycle(marked);
}

/** A mark or a tempo by hand is kept. */
export function onMarked(state: Practice, entry: LadderEntry): Step<Practice> {
  const kept: Practice = { ...state, awaited: null, kept: [...state.kept, entry], happened: null };
  if (entry.kind === 'mark') {
    const happened = whatMarkDid(climbNow(state), entry, state.phase);
    return afterAnyMark({ ...kept, happened }, entry, state.awaited);
  }
  return state.awaited === 'tempo under way' ? step(kept) : atOnce(kept, climbNow(state).bpm);
}

/** Nothing was kept: a mark stays due. One given early is asked for again, and the click goes on as without it. */
export function onNotKept(state: Practice): Step<Practice> {
  const { due, phase } = state;
  const free: Practice = { ...state, awaited: null };
  if (!due?.early || phase !== 'breathing') return step(free);
  return breathWithoutMark({ ...free, due: { ...due, early: null } });
}
