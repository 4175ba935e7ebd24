/**
 * Which key, way of tonguing and fingering an exercise is played in next: every key in every articulation comes
 * round. What came is remembered by the journal's names alone.
 */
import type { ArticulationName, KeyName, Line } from '../../ladder/line.ts';
import { seeded } from '../../common/chance.ts';
import { type LineHistory, countsOf, repetitions } from '../../ladder/speed/line-history.ts';
import type { Exercise } from '../routine/exercise.ts';
import type { Narrowing } from './block-narrowing.ts';
import { type Rotation, rotationOf } from './key-rotation.ts';
import { ladderLine } from './ladder-line.ts';
import { roundSoFar, turnsOfRound } from './round.ts';
import { type Turn, turnName } from './turn.ts';
import { turnAfter, wholeRound } from './turn-choice.ts';
import { weakIn } from './weak-keys.ts';

/** What of an exercise settles how it comes round. */
type Rotating = Pick<Exercise, 'id' | 'keys' | 'articulations' | 'rotation' | 'work'>;

export interface TurnAsked {
  readonly exercise: Rotating;
  readonly narrowed: Narrowing;
  /** Names of what came round so far, oldest first, with what was entered and is about to be kept. */
  readonly came: readonly string[];
  /** What is known of lines; those of other exercises do not count. */
  readonly histories: readonly LineHistory[];
  /** Whether the notes leave the easy range; asked only where such keys come more often. */
  readonly isEdge: (key: KeyName, articulation: ArticulationName) => boolean;
  /** Settles draws: the same seed after the same that came gives the same turn. */
  readonly seed: number;
}

/** The turn that is due, and the line whose ladder it is played on. */
export interface DueTurn extends Turn {
  readonly line: Line;
  /** To be kept once it is played, so that what came round is known tomorrow; null where nothing needs to be. */
  readonly name: string | null;
}

/** Repetitions are counted by their marks, where there are any; blocks and rungs by the names that are kept. */
const isCounted = ({ change }: Rotation, { work = 'ladder' }: Rotating): boolean =>
  change === 'repetition' && work === 'ladder';

/** Whether there is anything to come round. */
const isChoice = ({ keys, articulations }: Rotating, { fingerings }: Rotation): boolean =>
  keys.length * articulations.length > 1 || fingerings;

const due = (exercise: Rotating, turn: Turn, name: string | null): DueTurn => ({
  ...turn,
  line: ladderLine(exercise, { exercise: exercise.id, articulation: turn.articulation, key: turn.key }),
  name,
});

const historiesOf = ({ exercise, histories }: TurnAsked): readonly LineHistory[] =>
  histories.filter(({ line }) => line.exercise === exercise.id);

/** How often a key comes in one round of an articulation. */
function timesOf(asked: TurnAsked, rotation: Rotation, keys: readonly KeyName[]) {
  const own = rotation.weakTimes > 1 ? historiesOf(asked) : [];
  const weak = new Map<ArticulationName, ReadonlySet<KeyName>>();
  return (key: KeyName, articulation: ArticulationName): number => {
    const found = weak.get(articulation) ?? weakIn(own, rotation, keys, articulation);
    weak.set(articulation, found);
    const edge = rotation.edgeTimes > 1 && asked.isEdge(key, articulation) ? rotation.edgeTimes : 1;
    return Math.max(found.has(key) ? rotation.weakTimes : 1, edge);
  };
}

function turnsFor(asked: TurnAsked, rotation: Rotation): readonly Turn[] {
  const keys = asked.narrowed.keys ?? asked.exercise.keys;
  const articulations = asked.narrowed.articulations ?? asked.exercise.articulations;
  const { once } = asked.narrowed;
  return turnsOfRound({ keys, articulations, rotation, once, timesOf: timesOf(asked, rotation, keys) });
}

/** The turn after as many repetitions as were marked, round and round. */
function turnCounted(asked: TurnAsked, rotation: Rotation, turns: readonly Turn[]): Turn | null {
  const marked = historiesOf(asked).reduce((sum, history) => sum + repetitions(countsOf(history)), 0);
  const round = Math.floor(marked / Math.max(1, turns.length));
  return wholeRound(turns, rotation, seeded(asked.seed + round))[marked % Math.max(1, turns.length)] ?? null;
}

const turnRemembered = ({ came, seed }: TurnAsked, rotation: Rotation, turns: readonly Turn[]): Turn | null =>
  turnAfter(turns, roundSoFar(turns, came), rotation, seeded(seed + came.length));

/**
 * What comes next of an exercise; null without a key or an articulation. The keys come in the rotation's order, and
 * after a round through them the next articulation; or both are drawn together, each pair once before one comes
 * twice.
 */
export function nextTurn(asked: TurnAsked): DueTurn | null {
  const { exercise } = asked;
  const rotation = rotationOf(exercise);
  const turns = turnsFor(asked, rotation);
  const turn = (isCounted(rotation, exercise) ? turnCounted : turnRemembered)(asked, rotation, turns);
  if (turn === null) return null;
  const isKept = !isCounted(rotation, exercise) && isChoice(exercise, rotation);
  return due(exercise, turn, isKept ? turnName(turn) : null);
}

/** The turn that came last once more, fingering and all: for a block that is gone on with. */
export function turnAgain(asked: TurnAsked): DueTurn | null {
  const { exercise, narrowed, came } = asked;
  const rotation = rotationOf(exercise);
  const every = turnsOfRound({
    keys: narrowed.keys ?? exercise.keys,
    articulations: narrowed.articulations ?? exercise.articulations,
    rotation,
    once: false,
    timesOf: () => 1,
  });
  const last = isCounted(rotation, exercise) ? undefined : every.find((turn) => turnName(turn) === came.at(-1));
  return last === undefined ? nextTurn(asked) : due(exercise, last, null);
}

/** What a line that the player chose by hand is remembered as; null where nothing needs to be. */
export function nameByHand(exercise: Rotating, key: KeyName, articulation: ArticulationName): string | null {
  const rotation = rotationOf(exercise);
  const isKept = !isCounted(rotation, exercise) && isChoice(exercise, rotation);
  return isKept ? turnName({ key, articulation, fingering: 'ordinary' }) : null;
}

/** Whether a repetition that was just marked ends the turn; `isNewRung` says that the ladder has moved with it. */
export function isTurnOver(exercise: Pick<Exercise, 'rotation'>, isNewRung: boolean): boolean {
  const { change } = rotationOf(exercise);
  return change === 'repetition' || (change === 'rung' && isNewRung);
}
