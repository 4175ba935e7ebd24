/** What the rotation has ahead, and the grid that it goes over: worked out from what is known, remembered. */
import { remembered } from '../../common/remembered.ts';
import { type Rotation, rotationOf } from '../../plan/rotation/key-rotation.ts';
import { type Grid, gridOf } from '../../plan/rotation/grid.ts';
import { stayingIn } from '../../plan/rotation/next-turn.ts';
import { type Ahead, turnsAhead } from '../../plan/rotation/turns-ahead.ts';
import { turnName } from '../../plan/rotation/turn.ts';
import type { KnownSoFar, Stand, Work } from '../stand.ts';
import { drawsOf, namesToKeep } from './keys-that-came.ts';
import { turnAsked, turnOf } from './next-key.ts';
import { narrowedNow } from './sitting.ts';

/** So many turns are shown ahead. */
const SHOWN = 2;

export interface Following extends Ahead {
  /** After what they come. */
  readonly rotation: Rotation;
}

type Remembered = { readonly ahead: Map<string, Following>; readonly grids: Map<string, Grid> };

const answers = remembered((_known: KnownSoFar): Remembered => ({ ahead: new Map(), grids: new Map() }));

function found<Result>(all: Map<string, Result>, name: string, work: () => Result): Result {
  const result = all.get(name) ?? work();
  all.set(name, result);
  return result;
}

const nameOf = (stand: Stand, { practice, toKeep }: Work): string =>
  JSON.stringify([practice.exercise.id, turnName(turnOf(practice)), toKeep.length, narrowedNow(stand)]);

/** What follows the turn on the stand; with its own turn first where that comes again. */
export const followingNow = (stand: Stand, work: Work): Following =>
  found(answers(stand.known).ahead, nameOf(stand, work), () => {
    const { practice, toKeep } = work;
    const here = stayingIn(practice.exercise, narrowedNow(stand), practice.key, false);
    const asked = turnAsked(stand.known, practice.exercise, here);
    const isCome = namesToKeep(toKeep).length === 0;
    return { ...turnsAhead(asked, turnOf(practice), isCome, SHOWN), rotation: rotationOf(practice.exercise) };
  });

/** The grid of the line on the stand. */
export const gridNow = (stand: Stand, work: Work): Grid =>
  found(answers(stand.known).grids, nameOf(stand, work), () => {
    const { exercise } = work.practice;
    const draws = drawsOf(stand.known.records, exercise);
    const today = draws.flatMap(({ day, item, laid }) => (day === stand.known.today && !laid ? [item] : []));
    return gridOf(turnAsked(stand.known, exercise, narrowedNow(stand)), today);
  });
