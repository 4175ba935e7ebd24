/** How the keys and the ways of tonguing of an exercise come round: what the player may settle. */
import { ALL_KEYS, type KeyName } from '../../ladder/line.ts';
import type { KeyOrder } from './key-order.ts';

/** After what the key changes. */
export const KEY_CHANGES = ['repetition', 'rung', 'block'] as const;
type KeyChange = (typeof KEY_CHANGES)[number];

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
}

export const PLAIN_ROTATION: Rotation = {
  order: 'own',
  change: 'block',
  ladder: 'each key',
  weakTimes: 1,
  edgeTimes: 1,
  fingerings: false,
};

/** The exercise's own, or what holds where its file says nothing: a new pair is drawn for each block. */
export const rotationOf = ({ rotation }: { readonly rotation?: Rotation }): Rotation =>
  rotation ?? { ...PLAIN_ROTATION, order: 'key and articulation' };

/** The key under which a line's ladder is kept: its own, or one name for all where they share it. */
export const ladderKey = (rotation: Rotation, key: KeyName): KeyName => (rotation.ladder === 'shared' ? ALL_KEYS : key);
