/** What the rotation has ahead, and the grid that it goes over: worked out from what is known, remembered. */
import { remembered } from '../../common/remembered.ts';
import type { KeyName } from '../../ladder/line.ts';
import { type Rotation, rotationOf } from '../../plan/rotation/key-rotation.ts';
import { type Grid, gridOf } from '../../plan/rotation/grid.ts';
import { stayingIn } from '../../plan/rotation/next-turn.ts';
import { type Ahead, turnsAhead } from '../../plan/rotation/turns-ahead.ts';
import { type WhyOften, cellsOf, whyOften } from '../../plan/rotation/turn-asked.ts';
import { type Turn, turnName } from '../../plan/rotation/turn.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import type { KnownSoFar, Stand, Tone, Work } from '../stand.ts';
import { drawsOf, namesToKeep } from './keys-that-came.ts';
import { turnAsked, turnOf } from './next-key.ts';
import { narrowedNow } from './sitting.ts';

/** So many turns are shown ahead. */
const SHOWN = 2;

export interface Following extends Ahead {
  /** After what they come. */
  readonly rotation: Rotation;
  /** Why the turn on the stand comes more often than others; null where it does not. */
  readonly why: WhyOften | null;
  /** This week's keys; empty where all come every day. */
  readonly week: readonly KeyName[];
}

type Remembered = { readonly ahead: Map<string, Following>; readonly grids: Map<string, Grid> };

const answers = remembered((_known: KnownSoFar): Remembered => ({ ahead: new Map(), grids: new Map() }));

function found<Result>(all: Map<string, Result>, name: string, work: () => Result): Result {
  const result = all.get(name) ?? work();
  all.set(name, result);
  return result;
}

/** A turn on the stand, with what is to be kept of it. */
interface OnStand {
  readonly exercise: Exercise;
  readonly turn: Turn;
  readonly toKeep: Work['toKeep'];
}

const nameOf = (stand: Stand, { exercise, turn, toKeep }: OnStand): string =>
  JSON.stringify([exercise.id, turnName(turn), toKeep.length, narrowedNow(stand)]);

function followingOn(stand: Stand, { exercise, turn, toKeep }: OnStand): Following {
  const rotation = rotationOf(exercise);
  const asked = turnAsked(stand.known, exercise, stayingIn(exercise, narrowedNow(stand), turn.key, false));
  const all = { ...asked, narrowed: narrowedNow(stand) };
  const { keys } = cellsOf(all);
  return {
    ...turnsAhead(asked, turn, namesToKeep(toKeep).length === 0, SHOWN),
    rotation,
    why: whyOften(all, turn),
    week: rotation.weekKeys === null || narrowedNow(stand).keys ? [] : keys,
  };
}

const onStand = ({ practice, toKeep }: Work): OnStand => ({
  exercise: practice.exercise,
  turn: turnOf(practice),
  toKeep,
});

const following = (stand: Stand, here: OnStand): Following =>
  found(answers(stand.known).ahead, nameOf(stand, here), () => followingOn(stand, here));

/** What follows the turn on the stand; with its own turn first where that comes again. */
export const followingNow = (stand: Stand, work: Work): Following => following(stand, onStand(work));

/** What follows the key of a block without a ladder. */
export const followingTone = (stand: Stand, exercise: Exercise, { line, toKeep }: Tone): Following =>
  following(stand, { exercise, turn: { ...line, fingering: 'ordinary' }, toKeep });

/** The grid of the line on the stand. */
export const gridNow = (stand: Stand, work: Work): Grid =>
  found(answers(stand.known).grids, nameOf(stand, onStand(work)), () => {
    const { exercise } = work.practice;
    const draws = drawsOf(stand.known.records, exercise);
    const today = draws.flatMap(({ day, item, laid }) => (day === stand.known.today && !laid ? [item] : []));
    return gridOf(turnAsked(stand.known, exercise, narrowedNow(stand)), today);
  });
