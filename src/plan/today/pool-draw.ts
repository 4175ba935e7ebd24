/** What a pool gives next: what has waited longest, so that each of its exercises comes round in time. */
import type { Chance } from '../../common/chance.ts';
import type { Pool } from '../routine/routine.ts';
import { type Due, MOST_DUE, type Waited, dueAfter, marginOf, waitedSince } from './days-due.ts';
import type { PlayedBefore } from './played-before.ts';

/** The day on which an exercise was last played, in whichever block; null before the first. */
export const exerciseDay = (before: PlayedBefore, id: string): string | null => before.form.get(id)?.lastDay || null;

/** How long each item that was not played today has waited, longest first. */
function waiting(
  pool: Pool,
  before: PlayedBefore,
  taken: ReadonlySet<string>,
  chance: Chance,
): readonly (readonly [string, Waited])[] {
  return pool.items
    .filter((item) => !taken.has(item) && exerciseDay(before, item) !== before.day)
    .map((item) => [item, waitedSince(before, exerciseDay(before, item)), chance()] as const)
    .sort((a, b) => b[1].ago - a[1].ago || Number(b[1].isNew) - Number(a[1].isNew) || a[2] - b[2])
    .map(([item, waited]) => [item, waited] as const);
}

/**
 * How hard a pool presses: with i items due within d days, i/d of a draw is needed each day; the largest
 * such share counts, and from 1 on every day has to have its draw.
 */
function pressure(waits: readonly (readonly [string, Waited])[], everyDays: number): number {
  const left = (ago: number): number => Math.max(1, everyDays - ago - marginOf(everyDays) + 1);
  return Math.max(0, ...waits.map(([, { ago }], i) => (i + 1) / left(ago)));
}

/** What a block will play, and how due that is. */
export interface Chosen extends Due {
  readonly exercise: string | null;
  /** The rest of a pool, longest waited first. */
  readonly others?: readonly (Due & { readonly exercise: string })[];
}

/** The next of a pool; `taken` were drawn by other blocks, and it is added to them. Null when all were played today. */
export function drawnFromPool(pool: Pool, before: PlayedBefore, taken: Set<string>, chance: Chance): Chosen | null {
  const waits = waiting(pool, before, taken, chance);
  const [first] = waits;
  if (first === undefined) return null;
  taken.add(first[0]);
  const pressing = pressure(waits, pool.everyDays);
  const [drew, ...others] = waits.map(([exercise, waited]) => ({ ...dueAfter(waited, pool.everyDays), exercise }));
  return {
    exercise: first[0],
    due: Math.min(0.5 + pressing, MOST_DUE),
    presses: pressing >= 1,
    said: drew?.said ?? '',
    others,
  };
}
