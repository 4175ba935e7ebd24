/** Reading and writing the journal. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openJournal, readJournal } from '../../src/journal/journal-file.ts';
import { absorb, foldAll } from '../../src/journal/journal-fold.ts';
import { type Mishap, isMishap } from '../../src/common/mishap.ts';
import { openStore, readFold } from '../../src/journal/journal-store.ts';
import { type Row, median } from './row.ts';
import { tenYears, writeJournal } from './ten-years.ts';

function timed<T>(work: () => T): { readonly value: T; readonly ms: number } {
  const start = performance.now();
  const value = work();
  return { value, ms: performance.now() - start };
}

function fine<T>(value: T): Exclude<T, Mishap> {
  if (isMishap(value)) throw new Error(value.sentence);
  return value as Exclude<T, Mishap>;
}

const MARKS = 200_000;

export function benchJournal(): readonly Row[] {
  const folder = mkdtempSync(join(tmpdir(), 'standside-bench-'));
  const files = { journal: join(folder, 'journal.jsonl'), cache: join(folder, 'cache.json') };
  try {
    const entries = tenYears(MARKS);
    writeJournal(files.journal, entries);
    const read = timed(() => fine(readJournal(files.journal)));
    const folded = timed(() => foldAll(read.value.entries));
    fine(openStore(files)).close();
    const cached = timed(() => fine(readFold(files)));
    const journal = fine(openJournal(files.journal));
    const last = entries.at(-1);
    if (!last) throw new Error('no entries');
    const appended = Array.from({ length: 50 }, () => timed(() => journal.append(last)).ms);
    journal.close();
    const newest = { ...last, id: 'ffffffff-ffff-7fff-bfff-ffffffffffff' };
    const absorbed = timed(() => absorb(folded.value, newest));
    return [
      { what: `read a ten-year journal of ${MARKS} marks`, figure: read.ms / 1000, unit: 's', below: 1 },
      { what: 'fold it', figure: folded.ms / 1000, unit: 's', below: 0.5 },
      { what: 'the same from the cache', figure: cached.ms / 1000, unit: 's', below: 0.2 },
      { what: 'one mark more, on the disk (median of 50)', figure: median(appended), unit: 'ms', below: 20 },
      { what: 'one mark more, folded', figure: absorbed.ms, unit: 'ms', below: 5 },
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}
