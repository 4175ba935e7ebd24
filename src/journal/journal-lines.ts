/** From the text of a journal to its entries; pure. */
import { isKnownKind, wrongInCommon, wrongInEntry } from './entry-check.ts';
import type { Entry } from '../diary/entry.ts';

type Json = Readonly<Record<string, unknown>>;

/** An entry that a newer program wrote: kept and merged, but not understood. */
export interface Foreign {
  readonly v: number;
  readonly id: string;
  readonly at: string;
  readonly day: string;
  readonly kind: string;
}

/** A line that is no entry. It stays in the file. */
export interface BadLine {
  /** Counts from 1. */
  readonly line: number;
  readonly reason: string;
}

export interface Contents {
  /** In the order of their ids, none twice. */
  readonly entries: readonly Entry[];
  readonly foreign: readonly Foreign[];
  readonly bad: readonly BadLine[];
  /** What follows the last line break and is no entry: a line whose writing was cut off. */
  readonly torn: string | null;
}

/** The version of the entries that this program writes. */
export const VERSION = 1;

/** Lifts a value written as version N to version N + 1. */
export type Migration = (value: Json) => Json;

/** By the version they start from. The first version is the newest, so there is nothing to lift yet. */
export const MIGRATIONS: Readonly<Record<number, Migration>> = {};

export type Parsed =
  | { readonly is: 'entry'; readonly entry: Entry }
  | { readonly is: 'foreign'; readonly foreign: Foreign }
  | { readonly is: 'bad'; readonly reason: string };

const bad = (reason: string): Parsed => ({ is: 'bad', reason });

function lifted(value: Json, migrations: Readonly<Record<number, Migration>>): Json {
  const { v } = value;
  // A line may say anything: only a number names a version, and nothing inherited is a migration.
  const migration = typeof v === 'number' && Object.hasOwn(migrations, v) ? migrations[v] : undefined;
  return migration ? lifted(migration(value), migrations) : value;
}

function judged(value: Json, newest: number): Parsed {
  const { v, kind } = value;
  if (!Number.isSafeInteger(v) || Number(v) < 1) return bad('"v" should be the version, a whole number above 0');
  if (typeof kind !== 'string') return bad('"kind" should be a text');
  const known = v === newest && isKnownKind(kind);
  const wrong = known ? wrongInEntry(value) : wrongInCommon(value);
  if (wrong !== null) return bad(wrong);
  return known
    ? { is: 'entry', entry: value as unknown as Entry }
    : { is: 'foreign', foreign: value as unknown as Foreign };
}

/** One line of the journal, without its line break. */
export function parseLine(line: string, migrations = MIGRATIONS, newest = VERSION): Parsed {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return bad('it is not JSON');
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return bad('it is not an object');
  return judged(lifted(value as Json, migrations), newest);
}

const byId = (a: { readonly id: string }, b: { readonly id: string }): number =>
  a.id < b.id ? -1 : a.id > b.id ? 1 : 0;

/**
 * Of two entries with one id, the one whose text sorts first: the same on every machine, whatever the order of the
 * file.
 */
function smaller<T>(a: T, b: T): T {
  return JSON.stringify(a) <= JSON.stringify(b) ? a : b;
}

/** By id, none twice. A journal of one machine is in order already. */
export function ordered<T extends { readonly id: string }>(values: readonly T[]): readonly T[] {
  if (values.every((value, index) => index === 0 || (values[index - 1]?.id ?? '') < value.id)) return values;
  const kept: T[] = [];
  for (const value of [...values].sort(byId)) {
    const last = kept.at(-1);
    if (last?.id === value.id) kept[kept.length - 1] = smaller(last, value);
    else kept.push(value);
  }
  return kept;
}

/** The lines of a text with their numbers from 1; what follows the last line break comes too, if there is any. */
export function* linesOf(text: string): Generator<readonly [line: string, number: number, whole: boolean]> {
  let from = 0;
  let number = 1;
  for (let end = text.indexOf('\n'); end >= 0; end = text.indexOf('\n', from)) {
    yield [text.slice(from, end), number, true];
    from = end + 1;
    number += 1;
  }
  if (from < text.length) yield [text.slice(from), number, false];
}

/** Takes a journal in piece by piece: each but the last ends with a line break. */
export interface JournalParser {
  readonly take: (text: string) => void;
  readonly contents: () => Contents;
}

export function journalParser(): JournalParser {
  const entries: Entry[] = [];
  const foreign: Foreign[] = [];
  const badLines: BadLine[] = [];
  let torn: string | null = null;
  let lines = 0;
  const takeLine = (line: string, number: number, whole: boolean): void => {
    if (line.trim() === '') return;
    const parsed = parseLine(line);
    if (parsed.is === 'entry') entries.push(parsed.entry);
    else if (parsed.is === 'foreign') foreign.push(parsed.foreign);
    else if (whole) badLines.push({ line: number, reason: parsed.reason });
    else torn = line;
  };
  return {
    take: (text) => {
      const before = lines;
      for (const [line, number, whole] of linesOf(text)) {
        lines = before + number;
        takeLine(line, lines, whole);
      }
    },
    contents: () => ({ entries: ordered(entries), foreign: ordered(foreign), bad: badLines, torn }),
  };
}

export function parseJournal(text: string): Contents {
  const parser = journalParser();
  parser.take(text);
  return parser.contents();
}
