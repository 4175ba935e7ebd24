import { harmless } from '../../common/harmless-text.ts';

/** Names and indices from the root of a file to a value. */
export type Path = readonly PropertyKey[];

/** Where something stands in a text; both count from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** What is wrong at one place of a file, and what would be right. */
export interface FileTrouble extends Place {
  readonly file: string;
  readonly sentence: string;
}

export const START: Place = { line: 1, column: 1 };

/** `troubleLine(t)` is "brass.yaml, line 4, column 9: 'minutes' is -3; write a number of minutes from 0.5 to 240." */
export const troubleLine = (t: FileTrouble): string =>
  `${harmless(t.file)}, line ${t.line}, column ${t.column}: ${t.sentence}`;

export const inOrder = (troubles: readonly FileTrouble[]): readonly FileTrouble[] =>
  [...troubles].sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : a.line - b.line || a.column - b.column));

/** A value as a sentence may show it. */
export function shown(value: unknown): string {
  if (value === null) return 'empty';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a group of settings';
  return typeof value === 'string' ? `"${harmless(value, 40)}"` : `${value as number | boolean}`;
}
