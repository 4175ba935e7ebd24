/** What is asked where the next turn is to be found, and the round that it comes out of. */
import type { ArticulationName, KeyName } from '../../ladder/line.ts';
import type { LineHistory } from '../../ladder/speed/line-history.ts';
import type { Exercise } from '../routine/exercise.ts';
import type { Narrowing } from './block-narrowing.ts';
import { atTheEnds } from './ends-of-order.ts';
import { type Rotation, rotationOf } from './key-rotation.ts';
import { keysOfWeek } from './keys-of-week.ts';
import { turnsOfRound } from './round.ts';
import type { Turn } from './turn.ts';
import { weakIn } from './weak-keys.ts';

/** What of an exercise settles how it comes round. */
export type Rotating = Pick<Exercise, 'id' | 'keys' | 'articulations' | 'rotation' | 'work'>;

export interface TurnAsked {
  readonly exercise: Rotating;
  readonly narrowed: Narrowing;
  /** Names of what came round so far, oldest first, with what was entered and is about to be kept. */
  readonly came: readonly string[];
  /** What a key of the player's put on the stand after all that, to be played next; null where none did. */
  readonly laid: string | null;
  /** What is known of lines; those of other exercises do not count. */
  readonly histories: readonly LineHistory[];
  /** Whether the notes leave the easy range; asked only where such keys come more often. */
  readonly isEdge: (key: KeyName, articulation: ArticulationName) => boolean;
  /** Settles draws: the same seed after the same that came gives the same turn. */
  readonly seed: number;
  /** The player's own day, 'YYYY-MM-DD': some keys are those of its week. */
  readonly today: string;
}

const isMarked = ({ work = 'ladder' }: Pick<Exercise, 'work'>): boolean => work === 'ladder';

export const takesTurns = ({ articulations }: Rotation): boolean => articulations === 'in turn';

/**
 * Whether each repetition is a turn of its own, which has come when it is marked; else a turn has come as soon as it
 * is begun.
 */
export function comesWithMark(exercise: Pick<Exercise, 'rotation' | 'work'>): boolean {
  const rotation = rotationOf(exercise);
  return isMarked(exercise) && (rotation.change === 'repetition' || takesTurns(rotation));
}

/** The keys and ways of tonguing that come round here and now. */
export function cellsOf({ exercise, narrowed, today }: Pick<TurnAsked, 'exercise' | 'narrowed' | 'today'>) {
  const rotation = rotationOf(exercise);
  return {
    keys: narrowed.keys ?? keysOfWeek(exercise.keys, rotation, today),
    articulations: narrowed.articulations ?? exercise.articulations,
  };
}

const historiesOf = ({ exercise, histories }: TurnAsked): readonly LineHistory[] =>
  histories.filter(({ line }) => line.exercise === exercise.id);

/** Why a key comes more often than the others. */
export type WhyOften = 'a weak key' | 'the edge of the range' | 'an end';

interface Often {
  readonly why: WhyOften;
  readonly times: number;
}

/** What makes a key come more than once in a round. */
function oftenIn(asked: TurnAsked, rotation: Rotation, keys: readonly KeyName[]) {
  const own = rotation.weakTimes > 1 ? historiesOf(asked) : [];
  const weak = new Map<ArticulationName, ReadonlySet<KeyName>>();
  const ends = atTheEnds(keys, rotation);
  return (key: KeyName, articulation: ArticulationName): readonly Often[] => {
    const found = weak.get(articulation) ?? weakIn(own, rotation, keys, articulation);
    weak.set(articulation, found);
    const isEdge = rotation.edgeTimes > 1 && asked.isEdge(key, articulation);
    const all: readonly (Often & { readonly is: boolean })[] = [
      { why: 'an end', times: rotation.ends?.times ?? 1, is: ends.has(key) },
      { why: 'a weak key', times: rotation.weakTimes, is: found.has(key) },
      { why: 'the edge of the range', times: rotation.edgeTimes, is: isEdge },
    ];
    return all.filter(({ times, is }) => is && times > 1).toSorted((one, other) => other.times - one.times);
  };
}

/** How often a key comes in one round of an articulation: the most that anything asks for, each time repeated. */
function timesOf(asked: TurnAsked, rotation: Rotation, keys: readonly KeyName[]) {
  const often = oftenIn(asked, rotation, keys);
  const repeated = comesWithMark(asked.exercise) ? rotation.repetitions : 1;
  return (key: KeyName, articulation: ArticulationName): number => (often(key, articulation)[0]?.times ?? 1) * repeated;
}

/** Why a turn comes as often as it does; null where it comes as often as any, or time is short. */
export function whyOften(asked: TurnAsked, { key, articulation }: Turn): WhyOften | null {
  if (asked.narrowed.once) return null;
  const often = oftenIn(asked, rotationOf(asked.exercise), cellsOf(asked).keys);
  return often(key, articulation)[0]?.why ?? null;
}

/** Every turn of a round. */
export function turnsFor(asked: TurnAsked): readonly Turn[] {
  const rotation = rotationOf(asked.exercise);
  const { keys, articulations } = cellsOf(asked);
  const { once } = asked.narrowed;
  return turnsOfRound({ keys, articulations, rotation, once, timesOf: timesOf(asked, rotation, keys) });
}
