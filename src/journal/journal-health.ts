/** What a look through a journal finds; pure. */
import type { Contents } from './journal-lines.ts';

export interface JournalReport {
  /** Entries by kind, the most frequent first. */
  readonly kinds: Readonly<Record<string, number>>;
  readonly entries: number;
  /** Entries of a newer program: kept, not understood. */
  readonly newer: number;
  readonly firstDay: string | null;
  readonly lastDay: string | null;
  /** Lines that are no entries. */
  readonly bad: Contents['bad'];
  /** Whether the last line was cut off while it was written. */
  readonly torn: boolean;
  /** Undos of an entry that is not in this journal, such as one still on another machine. */
  readonly undosOfNothing: number;
}

function counted(words: readonly string[]): Readonly<Record<string, number>> {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return Object.fromEntries([...counts].sort(([, a], [, b]) => b - a));
}

export function reportOn({ entries, foreign, bad, torn }: Contents): JournalReport {
  const ids = new Set([...entries, ...foreign].map(({ id }) => id));
  const days = entries.map(({ day }) => day).sort();
  return {
    kinds: counted(entries.map(({ kind }) => kind)),
    entries: entries.length,
    newer: foreign.length,
    firstDay: days[0] ?? null,
    lastDay: days.at(-1) ?? null,
    bad,
    torn: torn !== null,
    undosOfNothing: entries.filter((entry) => entry.kind === 'undo' && !ids.has(entry.of)).length,
  };
}
