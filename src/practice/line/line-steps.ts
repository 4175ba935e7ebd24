/** Small steps that the decisions about a line are put together from. */
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import type { Bpm } from '../../common/units.ts';
import { countedOnBeat } from '../../music/tongue/vibrato.ts';
import { type Step, keep, say, sound, step } from '../step.ts';
import type { Practice } from './line-on-stand.ts';
import { climbNow, isRunning, markedNow, spanHeard } from './line-state.ts';
import { type Chain, breathThenRunOn, breathThenWait, cycle, flows, runOn, wait } from './repetition-cycle.ts';

/** Nothing changes but what is said. */
export const answer = (state: Practice, sentence: string): Step<Practice> => step(state, say(sentence));

/** Go on with another chain after this span, or at the next bar line if `cut`. */
export function goOn(state: Practice, chain: Chain, cut: boolean): Step<Practice> {
  const heard = state.chain.filter((span) => span.id === state.heard?.span);
  const next = { ...state, chain: [...heard, ...chain.spans], serial: chain.serial };
  return step(next, sound({ ask: 'then', spans: chain.spans, cut }));
}

/** The next cycle at the ladder's tempo: after the breathing bar, or at the next bar line when already waiting. */
export const nextCycle = (state: Practice): Step<Practice> =>
  goOn(state, cycle(state, climbNow(state).bpm), state.phase !== 'breathing');

/** Ask for a mark to be kept; it takes effect when it is on disk. */
export function keepMark(
  state: Practice,
  mark: Mark,
  bpm: Bpm,
  by: 'player' | 'rule',
  awaited: Practice['awaited'] = 'mark',
): Step<Practice> {
  const { line, exercise, key } = state;
  const happening = {
    kind: 'mark' as const,
    ...line,
    ...markedNow(state, bpm, mark),
    beat: `${exercise.beat.n}/${exercise.beat.d}`,
    notesPerBeat: countedOnBeat(line.articulation, exercise.notesPerBeat),
    by,
    ...(key === line.key ? {} : { sounded: key }),
  };
  return step({ ...state, awaited }, keep(happening));
}

/** The cycle that follows if the repetition due is counted as clean. */
function foreseen(state: Practice, bpm: Bpm): Step<Practice> {
  const { next } = markedNow(state, bpm, 'clean');
  return goOn(state, cycle(state, next), false);
}

/** So many lie ready, in case the next word comes late. */
const AHEAD = 2;

/**
 * Repetitions run on at the tempo that sounds. An exercise that waits for its marks plays one repetition on while a
 * mark is due, and no further.
 */
export function flowOn(state: Practice): Step<Practice> {
  const bpm = spanHeard(state)?.tempo.bpm ?? climbNow(state).bpm;
  if (state.phase !== 'playing') return goOn(state, runOn(state, bpm, AHEAD), false);
  const isEnough = state.before !== null && state.exercise.noMark === 'wait';
  return goOn(state, breathThenRunOn(state, bpm, isEnough ? 0 : AHEAD), false);
}

/** What follows the repetition that begins, where it is not told at its end: without a breath there is no time then. */
export function ahead(state: Practice): Step<Practice> {
  if (flows(state)) return flowOn(state);
  if (!state.due || state.exercise.breathBars > 0 || state.exercise.noMark === 'wait') return step(state);
  return untilMarked(state);
}

/** What follows the breathing bar as long as the mark has not come: wait, repeat, or go on as if it was clean. */
export function untilMarked(state: Practice): Step<Practice> {
  const { due, exercise } = state;
  if (!due) return nextCycle(state);
  if (flows(state) && state.phase === 'breathing') return flowOn(state);
  if (exercise.noMark === 'clean') return foreseen(state, due.bpm);
  if (exercise.noMark === 'repeat') return goOn(state, cycle(state, due.bpm), false);
  if (state.phase === 'playing') return goOn(state, breathThenWait(state, due.bpm), true);
  return goOn(state, wait(state, due.bpm), state.phase === 'waiting');
}

/** A breathing bar has begun without a mark; the wait after it lies ready already, where the exercise waits. */
export const breathWithoutMark = (state: Practice): Step<Practice> =>
  state.exercise.noMark === 'wait' || flows(state) ? step(state) : untilMarked(state);

/** Another tempo starts at the next bar line, with its count-in; what was not marked by then is dropped. */
export function atOnce(state: Practice, before: Bpm): Step<Practice> {
  const { bpm } = climbNow(state);
  if (bpm === before) return step(state);
  const dropped: Practice = { ...state, due: null, before: null };
  return isRunning(state) ? goOn(dropped, cycle(dropped, bpm), true) : step(dropped);
}
