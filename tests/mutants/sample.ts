/** A seeded choice, spread over groups in proportion to their sizes; pure. */
import { type Chance, seeded } from '../../src/common/chance.ts';

/** So many of them, each as likely as any other (Fisher and Yates). */
function drawn<T>(from: readonly T[], count: number, chance: Chance): readonly T[] {
  const rest = [...from];
  return Array.from({ length: Math.min(count, rest.length) }, () => {
    const [one] = rest.splice(Math.floor(chance() * rest.length), 1);
    return one as T;
  });
}

/**
 * At least `size` of all that there is, as many of each group as its share asks for, rounded up; the same for the same
 * seed. `sampled([1, 2, 3, 4, 5, 6], (n) => n > 4, 3, seed)` has two of the first four and one of the last two.
 */
export function sampled<T>(all: readonly T[], groupOf: (one: T) => unknown, size: number, seed: number): readonly T[] {
  const chance = seeded(seed);
  const groups = new Map<unknown, T[]>();
  for (const one of all) {
    const group = groups.get(groupOf(one)) ?? [];
    group.push(one);
    groups.set(groupOf(one), group);
  }
  return [...groups.values()].flatMap((group) => drawn(group, Math.ceil((size * group.length) / all.length), chance));
}
