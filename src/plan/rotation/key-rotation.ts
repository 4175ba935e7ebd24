/** How the keys and the ways of tonguing of an exercise come round: what the player may settle. */
import { ALL_KEYS, type KeyName } from '../../ladder/line.ts';
import type { KeyOrder } from './key-order.ts';

/** After what the key changes. */
export const KEY_CHANGES = ['repetition', 'rung', 'block'] as const;
type KeyChange = (typeof KEY_CHANGES)[number];

/** When the next way of tonguing comes. */
export const ARTICULATION_TURNS = ['after all keys', 'in turn'] as const;

export interface Rotation {
  readonly order: KeyOrder;
  readonly change: KeyChange;
  /** One ladder and best for each key, or one for all of them. */
  readonly ladder: 'each key' | 'shared';
  /** How many times as often the weak keys come, and those at the edges of the range; 1 is as often as the others. */
  readonly weakTimes: number;
  readonly edgeTimes: number;
  /** Each key twice, with ordinary and then with alternate fingerings. */
  readonly fingerings: boolean;
  /** Repetitions in a row before the next one comes, where it comes with the repetition. */
  readonly repetitions: number;
  /** The first and last so many keys of the order come so many times in a row, those between them once. */
  readonly ends: Ends | null;
  /** So many keys each week, the next ones the week after; null for all of them every day. */
  readonly weekKeys: number | null;
  /** 'in turn': in each key all ways of tonguing one after the other, at one speed, a missed one again. */
  readonly articulations: (typeof ARTICULATION_TURNS)[number];
}

/** More at the lowest and highest, once through in the middle. */
export interface Ends {
  readonly keys: number;
  readonly times: number;
}

export const PLAIN_ROTATION: Rotation = {
  order: 'own',
  change: 'block',
  ladder: 'each key',
  weakTimes: 1,
  edgeTimes: 1,
  fingerings: false,
  repetitions: 1,
  ends: null,
  weekKeys: null,
  articulations: 'after all keys',
};

/** The exercise's own, or what holds where its file says nothing: a new pair is drawn for each block. */
export const rotationOf = ({ rotation }: { readonly rotation?: Rotation }): Rotation =>
  rotation ?? { ...PLAIN_ROTATION, order: 'key and articulation' };

/** The key under which a line's ladder is kept: its own, or one name for all where they share it. */
export const ladderKey = (rotation: Rotation, key: KeyName): KeyName => (rotation.ladder === 'shared' ? ALL_KEYS : key);
