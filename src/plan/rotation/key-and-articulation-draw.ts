/**
 * A draw of key and articulation that remembers: every cell comes once before one comes twice. What was drawn
 * is a list of names, oldest first, as the journal keeps it; nothing else is remembered.
 */
import { type ArticulationName, type KeyName } from '../../ladder/line.ts';
import type { Chance } from '../../common/chance.ts';
import type { Exercise } from '../routine/exercise.ts';

export interface Cell {
  readonly key: KeyName;
  readonly articulation: ArticulationName;
}

/** `cellName({ key: 'Bb', articulation: 'double' })` is 'Bb · double': what the journal writes down. */
export const cellName = (cell: Cell): string => `${cell.key} · ${cell.articulation}`;

/** Every key in every articulation. */
export const cellsOf = ({ keys, articulations }: Pick<Exercise, 'keys' | 'articulations'>): readonly Cell[] =>
  keys.flatMap((key) => articulations.map((articulation) => ({ key, articulation })));

export interface Coverage {
  /** Cells drawn in this round, and how many there are. */
  readonly drawn: number;
  readonly of: number;
  /** Counts from 1. */
  readonly round: number;
}

interface Round {
  readonly covered: ReadonlySet<string>;
  readonly number: number;
}

/**
 * A round ends as soon as every cell that there is now has come up in it; a cell added later is simply still to come.
 */
function roundOf(cells: readonly Cell[], drawn: readonly string[]): Round {
  const names = new Set(cells.map(cellName));
  let [covered, number] = [new Set<string>(), 1];
  for (const name of drawn) {
    if (!names.has(name)) continue;
    covered.add(name);
    if (covered.size === names.size) [covered, number] = [new Set(), number + 1];
  }
  return { covered, number };
}

/** How far the round has come. Names that belong to no cell any more are ignored. */
export function coverage(cells: readonly Cell[], drawn: readonly string[]): Coverage {
  const { covered, number } = roundOf(cells, drawn);
  return { drawn: covered.size, of: cells.length, round: number };
}

/** One of the items, each as likely as its weight says. */
function picked<T>(items: readonly T[], weight: (item: T) => number, chance: Chance): T | null {
  let left = chance() * items.reduce((sum, item) => sum + weight(item), 0);
  for (const item of items) {
    left -= weight(item);
    if (left < 0) return item;
  }
  return items.at(-1) ?? null;
}

/**
 * The next cell, out of those still to come in this round; never the one drawn last if there is another. `weight` makes
 * some come earlier in their round (weak keys), not more often. Null without cells.
 */
export function drawNext(
  cells: readonly Cell[],
  drawn: readonly string[],
  chance: Chance,
  weight: (cell: Cell) => number = () => 1,
): Cell | null {
  const { covered } = roundOf(cells, drawn);
  const waiting = cells.filter((cell) => !covered.has(cellName(cell)));
  const others = waiting.filter((cell) => cellName(cell) !== drawn.at(-1));
  return picked(others.length > 0 ? others : waiting, (cell) => Math.max(weight(cell), 0.001), chance);
}
