/** A way round a wall being played: passage after passage by itself, then back to the ladder below the wall. */
import type { Way } from '../../ladder/wall/ways-round.ts';
import type { Bpm } from '../../common/units.ts';
import { type Effect, type Step, keep, say, step } from '../step.ts';
import type { Practice } from './line-on-stand.ts';
import { climbNow, isRunning, passageNow, tempoNext } from './line-state.ts';
import { answer, goOn } from './line-steps.ts';
import { cycle } from './repetition-cycle.ts';

/** Begins a way: silence until the player starts, or at the next bar line when something sounds. */
export function beginWay(practice: Practice, way: Way, wall: Bpm): Step<Practice> {
  const state: Practice = { ...practice, due: null, before: null, way: { way, wall, at: 0, done: 0 } };
  return isRunning(state)
    ? goOn(state, cycle(state, tempoNext(state)), true)
    : answer(state, `${way.title}: ${way.why}`);
}

/** To be kept: which way was played, and whether to its end. */
function outcomeOf({ line, way }: Practice, outcome: 'played' | 'left'): readonly Effect[] {
  return way ? [keep({ kind: 'way', ...line, way: way.way.id, wall: way.wall, outcome })] : [];
}

/** To be kept where the line is put away: a way under way was not played to its end. Nothing on the ladder. */
export const wayLeft = (practice: Practice | null): readonly Effect[] => (practice ? outcomeOf(practice, 'left') : []);

const onLadder = (practice: Practice): Practice => ({ ...practice, way: null });

/** Played to its end: the ladder goes on one rung below the wall. */
function finish(practice: Practice): Step<Practice> {
  const back = practice.way?.way.back ?? climbNow(practice).bpm;
  const left: Practice = { ...onLadder(practice), awaited: 'tempo under way' };
  const { state, effects } = goOn(left, cycle(left, back), false);
  return step(
    state,
    ...outcomeOf(practice, 'played'),
    ...effects,
    say(`Back to the ladder at ${back}, one rung below the wall.`),
    keep({ kind: 'tempo', ...practice.line, next: back }),
  );
}

/** One repetition of the passage was heard: again, the next passage, or the end. */
export function afterPassage(practice: Practice): Step<Practice> {
  const { way } = practice;
  const passage = passageNow(practice);
  if (!way || !passage) return step(practice);
  const again = way.done + 1 < passage.repetitions;
  const moved: Practice = {
    ...practice,
    way: { ...way, at: again ? way.at : way.at + 1, done: again ? way.done + 1 : 0 },
  };
  const next = passageNow(moved);
  return next ? goOn(moved, cycle(moved, next.bpm), false) : finish(practice);
}

/** Left in the middle: the line is as it was before. */
export function leaveWay(practice: Practice): Step<Practice> {
  const left = onLadder(practice);
  const { state, effects } = isRunning(left) ? goOn(left, cycle(left, climbNow(left).bpm), true) : step(left);
  return step(state, ...wayLeft(practice), ...effects, say('Back on the ladder.'));
}
