/** A way round a wall being played: passage after passage by itself, then back to the ladder below the wall. */
import { startAt } from '../../ladder/rule/climb.ts';
import type { Passage, Way } from '../../ladder/wall/ways-round.ts';
import { soundedNotes } from '../../music/tongue/drill.ts';
import type { Bpm } from '../../common/units.ts';
import { cycle } from './repetition-cycle.ts';
import { type Effect, type Practice, type Step, isRunning } from './line-on-stand.ts';
import { goOn, stay } from './line-steps.ts';
import { wayDrill } from './way-notes.ts';

export const passageNow = ({ way }: Practice): Passage | null => way?.way.passages[way.at] ?? null;

/** The notes and the drill of the passage at hand, or the line's own. */
function dressed(practice: Practice): Practice {
  const passage = passageNow(practice);
  const plain = practice.way?.plain ?? practice.drill;
  const drill = plain && passage ? wayDrill(plain, passage) : plain;
  return { ...practice, drill, notes: drill ? soundedNotes(drill) : practice.notes };
}

/** Begins a way: silence until the player starts, or at the next bar line when something sounds. */
export function beginWay(practice: Practice, way: Way, wall: Bpm): Step<Practice> {
  const state = dressed({ ...practice, due: null, way: { way, wall, at: 0, done: 0, plain: practice.drill } });
  const bpm = passageNow(state)?.bpm ?? state.climb.bpm;
  return isRunning(state) ? goOn(state, cycle(state, bpm), true) : stay(state, `${way.title}: ${way.why}`);
}

/** To be kept: which way was played, and whether to its end. */
function told({ line, way }: Practice, outcome: 'played' | 'left'): readonly Effect[] {
  if (!way) return [];
  return [{ type: 'record', record: { kind: 'way', ...line, way: way.way.id, wall: way.wall, outcome } }];
}

const undressed = (practice: Practice): Practice => {
  const drill = practice.way?.plain ?? null;
  return { ...practice, way: null, drill, notes: drill ? soundedNotes(drill) : practice.notes };
};

/** Played to its end: the ladder goes on one rung below the wall. */
function finish(practice: Practice): Step<Practice> {
  const back = practice.way?.way.back ?? practice.climb.bpm;
  const next = startAt(back, practice.climb.best);
  const hint = `Back to the ladder at ${back}, one rung below the wall.`;
  const left: Practice = { ...undressed(practice), saving: { what: 'tempo', next, follows: true }, hint };
  const { state, effects } = goOn(left, cycle(left, back), false);
  const kept: Effect = { type: 'store', draft: { kind: 'tempo', line: practice.line, next: back } };
  return { state, effects: [...told(practice, 'played'), ...effects, kept] };
}

/** One repetition of the passage was heard: again, the next passage, or the end. */
export function afterPassage(practice: Practice): Step<Practice> {
  const { way } = practice;
  const passage = passageNow(practice);
  if (!way || !passage) return stay(practice);
  const again = way.done + 1 < passage.repetitions;
  const moved = dressed({
    ...practice,
    way: { ...way, at: again ? way.at : way.at + 1, done: again ? way.done + 1 : 0 },
  });
  const next = passageNow(moved);
  return next ? goOn(moved, cycle(moved, next.bpm), false) : finish(practice);
}

/** Left in the middle: the line is as it was before. */
export function leaveWay(practice: Practice): Step<Practice> {
  const left: Practice = { ...undressed(practice), hint: 'Back on the ladder.' };
  const { state, effects } = isRunning(left) ? goOn(left, cycle(left, left.climb.bpm), true) : stay(left);
  return { state, effects: [...told(practice, 'left'), ...effects] };
}
