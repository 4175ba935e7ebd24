/** A player's folder as the version before wrote it: journal, cache and settings, all kinds of entries in it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readCache } from '../../src/journal/fold-cache.ts';
import type { Stamp } from '../../src/journal/journal-disk.ts';
import { readJournal } from '../../src/journal/journal-file.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { lineName } from '../../src/ladder/line.ts';
import type { LineState } from '../../src/journal/line-fold.ts';
import { isMishap } from '../../src/common/mishap.ts';

const THEN = new URL('../fixtures/version-before/', import.meta.url).pathname;

/** That version kept the moment of a best and of the newest mark too, which nobody reads. */
function asReadNow(line: LineState): object {
  const { lastAt: _, best, ...read } = line as LineState & { readonly lastAt: string };
  if (best === null) return { ...read, best };
  const { at: __, ...held } = best as typeof best & { readonly at: string };
  return { ...read, best: held };
}

type OldLine = Omit<LineState, 'tallies'> & { readonly tallies: readonly (readonly [string, ...number[]])[] };
interface OldCache {
  readonly journal: Stamp;
  readonly lines: readonly OldLine[];
  readonly rest: { readonly others: unknown; readonly lastId: string };
}

const unpacked = (line: OldLine): LineState => ({
  ...line,
  tallies: line.tallies.map(([day, bpm = 0, clean = 0, tense = 0, missed = 0]) => ({ day, bpm, clean, tense, missed })),
});

const journal = readJournal(join(THEN, 'journal.jsonl'));
if (isMishap(journal)) throw new Error(journal.sentence);

describe('what the version before wrote', () => {
  it('is read whole: every kind of entry, not one bad line', () => {
    expect(journal.bad).toEqual([]);
    expect(journal.foreign).toEqual([]);
    const kinds = new Set(journal.entries.map(({ kind }) => kind));
    expect([...kinds].toSorted()).toEqual(['block', 'draw', 'mark', 'note', 'plan', 'tempo', 'tension', 'undo', 'way']);
  });

  it('folds to what that version itself made of it: tempo, runs, best, tallies, keys', () => {
    const old = JSON.parse(readFileSync(join(THEN, 'cache.json'), 'utf8')) as OldCache;
    const fold = foldAll(journal.entries);
    expect(old.lines.length).toBeGreaterThan(0);
    expect([...fold.lines]).toEqual(old.lines.map((line) => [lineName(line.line), asReadNow(unpacked(line))]));
    expect(fold.others).toEqual(old.rest.others);
    expect(fold.lastId).toBe(old.rest.lastId);
  });

  it('is no cache that counts any more: it says nothing by which damage would be noticed', () => {
    const { journal: stamp } = JSON.parse(readFileSync(join(THEN, 'cache.json'), 'utf8')) as OldCache;
    expect(readCache(join(THEN, 'cache.json'), stamp)).toBeNull();
  });
});
