/** The ends of an order: the first and the last keys of it, as a rule the lowest and the highest. */
import type { KeyName } from '../../ladder/line.ts';
import { keysInOrder } from './key-order.ts';
import type { Rotation } from './key-rotation.ts';

/** The keys that come more often for standing at an end; none where the rotation does not ask for it. */
export function atTheEnds(keys: readonly KeyName[], { order, ends }: Rotation): ReadonlySet<KeyName> {
  if (ends === null) return new Set();
  const inOrder = keysInOrder(keys, order).flat();
  return new Set([...inOrder.slice(0, ends.keys), ...inOrder.slice(-ends.keys)]);
}
