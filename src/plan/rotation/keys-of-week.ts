/** The keys of this week: so many of them from Monday on, the next ones the week after. */
import { mondayOf } from '../../common/days.ts';
import type { KeyName } from '../../ladder/line.ts';
import { keysInOrder } from './key-order.ts';
import type { Rotation } from './key-rotation.ts';

/**
 * In the rotation's order, counted from the same Monday for ever, so that nothing needs to be remembered: of twelve
 * keys by three each comes in every fourth week. All of them where the rotation does not ask for it.
 */
export function keysOfWeek(keys: readonly KeyName[], { order, weekKeys }: Rotation, today: string): readonly KeyName[] {
  if (weekKeys === null || weekKeys >= keys.length) return keys;
  const inOrder = keysInOrder(keys, order).flat();
  const first = Math.floor(mondayOf(today) / 7) * weekKeys;
  return Array.from({ length: weekKeys }, (_, i) => inOrder[(first + i) % inOrder.length] as KeyName);
}
