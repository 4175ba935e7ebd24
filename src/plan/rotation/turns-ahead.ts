/** What comes after the turn on the stand, and what the player may ask for in its place. */
import type { KeyName } from '../../ladder/line.ts';
import { keysInOrder } from './key-order.ts';
import { rotationOf } from './key-rotation.ts';
import { nextTurn } from './next-turn.ts';
import { type TurnAsked, cellsOf } from './turn-asked.ts';
import { type Turn, isSameLine, turnName } from './turn.ts';

/** Looking further than this for another turn helps nobody. */
const FAR = 200;

const isSame = (a: Turn, b: Turn): boolean => isSameLine(a, b) && a.fingering === b.fingering;

/** One turn after the other, as they come where nothing is missed and nothing chosen. */
function* following(asked: TurnAsked): Generator<Turn> {
  const came = [...asked.came];
  for (let n = 0; n < FAR; n += 1) {
    const next = nextTurn({ ...asked, came });
    if (next === null) return;
    yield next;
    came.push(turnName(next));
  }
}

/** Where the present turn has not come yet, it is the first to come. */
const after = (asked: TurnAsked, now: Turn, isCome: boolean): TurnAsked =>
  isCome ? asked : { ...asked, came: [...asked.came, turnName(now)] };

export interface Ahead {
  /** The same once more, so many times, before another comes. */
  readonly more: number;
  readonly others: readonly Turn[];
}

/** What follows the turn on the stand: how often it comes again, and so many others. */
export function turnsAhead(asked: TurnAsked, now: Turn, isCome: boolean, many: number): Ahead {
  const others: Turn[] = [];
  let more = 0;
  for (const turn of following(after(asked, now, isCome))) {
    if (!isSame(turn, others.at(-1) ?? now)) others.push(turn);
    else if (others.length === 0) more += 1;
    if (others.length === many || more === FAR) break;
  }
  return others.length === 0 ? { more: 0, others } : { more, others };
}

export type TurnWish = 'key before' | 'key after' | 'articulation' | 'another';

/** The keys as they come round. */
export const keysAsTheyCome = (asked: TurnAsked): readonly KeyName[] =>
  keysInOrder(cellsOf(asked).keys, rotationOf(asked.exercise).order).flat();

/** The one so many places on in a list that goes round; the first where the present one is not in it. */
function shifted<T>(list: readonly T[], now: T, by: number): T | undefined {
  const at = list.indexOf(now);
  return at < 0 ? list[0] : list[(at + by + list.length) % list.length];
}

/** The next one that is neither this nor one that was passed over. */
function another(asked: TurnAsked, now: Turn, passed: readonly string[]): Turn | null {
  const from: TurnAsked = { ...asked, came: [...asked.came, ...passed, turnName(now)] };
  for (const turn of following(from)) if (!isSame(turn, now)) return turn;
  return null;
}

/**
 * The turn that the player asks for in place of this one; null where there is no other. 'another' is the next in the
 * order, or another draw; what was passed over before comes last.
 */
export function turnWished(asked: TurnAsked, now: Turn, wish: TurnWish, passed: readonly string[]): Turn | null {
  if (wish === 'another') return another(asked, now, passed);
  const { articulations } = cellsOf(asked);
  const key =
    wish === 'articulation' ? now.key : shifted(keysAsTheyCome(asked), now.key, wish === 'key after' ? 1 : -1);
  const articulation = wish === 'articulation' ? shifted(articulations, now.articulation, 1) : now.articulation;
  if (key === undefined || articulation === undefined) return null;
  const turn: Turn = { key, articulation, fingering: 'ordinary' };
  return isSameLine(turn, now) ? null : turn;
}
