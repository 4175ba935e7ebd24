/**
 * Which key, way of tonguing and fingering an exercise is played in next: every key in every articulation comes
 * round. What came is remembered by the journal's names alone.
 */
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import type { ArticulationName, KeyName, Line } from '../../ladder/line.ts';
import { seeded } from '../../common/chance.ts';
import type { Exercise } from '../routine/exercise.ts';
import type { Narrowing } from './block-narrowing.ts';
import { type Rotation, rotationOf } from './key-rotation.ts';
import { ladderLine } from './ladder-line.ts';
import { roundSoFar, turnsOfRound } from './round.ts';
import { type Rotating, type TurnAsked, cellsOf, comesWithMark, takesTurns, turnsFor } from './turn-asked.ts';
import { type Turn, turnName } from './turn.ts';
import { turnAfter } from './turn-choice.ts';

export { type TurnAsked, comesWithMark } from './turn-asked.ts';

/** The turn that is due, and the line whose ladder it is played on. */
export interface DueTurn extends Turn {
  readonly line: Line;
  /** To be kept once it is played, so that what came round is known tomorrow; null where nothing needs to be. */
  readonly name: string | null;
  /** The ways of tonguing that are played at one speed with it; without others there is none. */
  readonly together?: readonly ArticulationName[];
}

/** Where ways of tonguing take turns, the missed one comes back. */
export const comesBack = (exercise: Pick<Exercise, 'rotation'>, mark: Mark): boolean =>
  mark === 'missed' && takesTurns(rotationOf(exercise));

/** Whether there is anything to come round. */
const isChoice = ({ keys, articulations }: Rotating, { fingerings }: Rotation): boolean =>
  keys.length * articulations.length > 1 || fingerings;

const due = (asked: TurnAsked, turn: Turn, name: string | null): DueTurn => {
  const { exercise } = asked;
  const line = ladderLine(exercise, { exercise: exercise.id, articulation: turn.articulation, key: turn.key });
  const together = takesTurns(rotationOf(exercise)) ? { together: cellsOf(asked).articulations } : {};
  return { ...turn, line, name, ...together };
};

/**
 * What comes next of an exercise; null without a key or an articulation. The keys come in the rotation's order, and
 * after a round through them the next articulation; or both are drawn together, each pair once before one comes
 * twice; or in each key the ways of tonguing take turns.
 */
export function nextTurn(asked: TurnAsked): DueTurn | null {
  const { exercise, came, seed } = asked;
  const rotation = rotationOf(exercise);
  const turns = turnsFor(asked);
  const turn = turnAfter(turns, roundSoFar(turns, came), rotation, seeded(seed + came.length));
  return turn && due(asked, turn, nameOfTurn(exercise, turn));
}

/** Every turn by its name that the block may be gone on with. */
function turnNamed(asked: TurnAsked, name: string | null | undefined): Turn | undefined {
  const { keys, articulations } = cellsOf(asked);
  const rotation = rotationOf(asked.exercise);
  const every = turnsOfRound({ keys, articulations, rotation, once: false, timesOf: () => 1 });
  return every.find((turn) => turnName(turn) === name);
}

/** The next one of the key that came last: that is the block's, where its ways of tonguing take turns. */
function nextInKey(asked: TurnAsked): DueTurn | null {
  const last = turnNamed(asked, asked.came.at(-1));
  return nextTurn(last === undefined ? asked : { ...asked, narrowed: { ...asked.narrowed, keys: [last.key] } });
}

/**
 * The turn for a block that is gone on with: what was laid on the stand by hand; where each repetition is a turn, the
 * one that was due; else the one that came last once more, fingering and all.
 */
export function turnAgain(asked: TurnAsked): DueTurn | null {
  const { exercise, laid, came } = asked;
  const byHand = laid === null ? undefined : turnNamed(asked, laid);
  if (byHand) return due(asked, byHand, laid);
  if (comesWithMark(exercise)) return rotationOf(exercise).change === 'repetition' ? nextTurn(asked) : nextInKey(asked);
  const last = turnNamed(asked, came.at(-1));
  return last === undefined ? nextTurn(asked) : due(asked, last, null);
}

/** What a turn is remembered as; null where nothing needs to be. */
export const nameOfTurn = (exercise: Rotating, turn: Turn): string | null =>
  isChoice(exercise, rotationOf(exercise)) ? turnName(turn) : null;

/** A turn that the player asked for. */
export const turnAskedFor = (asked: TurnAsked, turn: Turn): DueTurn =>
  due(asked, turn, nameOfTurn(asked.exercise, turn));

/** The name of a line that the player chose by hand. */
export const nameByHand = (exercise: Rotating, key: KeyName, articulation: ArticulationName): string | null =>
  nameOfTurn(exercise, { key, articulation, fingering: 'ordinary' });

/**
 * Whether a repetition that was just marked ends the turn; `isNewRung` says that the ladder has moved with it. Where
 * ways of tonguing take turns each repetition does, but for a missed one.
 */
export function isTurnOver(exercise: Pick<Exercise, 'rotation'>, isNewRung: boolean, mark: Mark): boolean {
  const rotation = rotationOf(exercise);
  if (takesTurns(rotation)) return !comesBack(exercise, mark);
  return rotation.change === 'repetition' || (rotation.change === 'rung' && isNewRung);
}

/** Within a block whose ways of tonguing take turns the key stays, until the block or the rung changes it. */
export function stayingIn(
  exercise: Pick<Exercise, 'rotation'>,
  narrowed: Narrowing,
  key: KeyName,
  isNewRung: boolean,
): Narrowing {
  const rotation = rotationOf(exercise);
  const stays = rotation.change === 'block' || (rotation.change === 'rung' && !isNewRung);
  return takesTurns(rotation) && stays ? { ...narrowed, keys: [key] } : narrowed;
}
