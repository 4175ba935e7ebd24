import { harmless } from '../../common/harmless-text.ts';
import { MOST } from './written-limits.ts';
import type { Mishap } from '../../common/mishap.ts';

/** Names and indices from the root of a file to a value. */
export type Path = readonly PropertyKey[];

/** Where something stands in a text; both count from 1. */
export interface LineAndColumn {
  readonly line: number;
  readonly column: number;
}

/** A mishap at one place of a text: what is wrong there, and what would be right. */
export interface FileTrouble extends Mishap, LineAndColumn {}

export const START: LineAndColumn = { line: 1, column: 1 };

/** `troubleLine(t)` is "brass.yaml, line 4, column 9: 'minutes' is -3; write a number of minutes from 0.5 to 240." */
export const troubleLine = (t: FileTrouble): string =>
  `${harmless(t.file)}, line ${t.line}, column ${t.column}: ${t.sentence}`;

export const inOrder = (troubles: readonly FileTrouble[]): readonly FileTrouble[] =>
  [...troubles].sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : a.line - b.line || a.column - b.column));

/** Troubles as they are told: so many one by one, and how many more there are. */
export function named(troubles: readonly FileTrouble[]): readonly FileTrouble[] {
  const more = troubles.length - MOST.named;
  const [next] = troubles.slice(MOST.named);
  if (!next || more < 2) return troubles;
  return [
    ...troubles.slice(0, MOST.named),
    { ...next, sentence: `from here on there are ${more} more mistakes; mend those before first.` },
  ];
}

/** What a value is called: its own name, or that of the list it stands in. */
export function called(path: Path): string {
  const last = path.at(-1);
  if (last === undefined) return 'the file';
  const list = path.at(-2);
  return typeof last === 'number' ? `entry ${last + 1} of '${String(list)}'` : `'${harmless(String(last), 40)}'`;
}

/** `wrongValue(['minutes'], -3, 'a number')` is "'minutes' is -3; write a number." */
export const wrongValue = (path: Path, value: unknown, right: string): string =>
  `${called(path)} is ${shown(value)}; write ${right}${right.endsWith('?') ? '' : '.'}`;

/** A value as a sentence may show it. */
export function shown(value: unknown): string {
  if (value === null) return 'empty';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a group of settings';
  return typeof value === 'string' ? `"${harmless(value, 40)}"` : `${value as number | boolean}`;
}
