/** The journal and what it folds to, kept together while the program runs. */
import { readCache, writeCache } from './fold-cache.ts';
import { type Entry, ofLadder } from '../diary/entry.ts';
import { lineName } from '../ladder/line.ts';
import { type Stamp, stampOf } from './journal-disk.ts';
import { type Journal, openJournal, readJournal } from './journal-file.ts';
import type { Progress } from './journal-pieces.ts';
import { type Fold, absorb, foldAll } from './journal-fold.ts';
import { type Mishap, isMishap } from '../common/mishap.ts';
import type { BadLine, Contents } from './journal-lines.ts';

export interface StoreFiles {
  readonly journal: string;
  readonly cache: string;
}

export interface Appended {
  /** Name of the line that the entry belongs to, or whose entry it takes back; null for all that is of no line. */
  readonly line: string | null;
  /** One sentence where another program had changed the journal; all of it was then read again. */
  readonly notice?: string;
}

export interface Store {
  /** What is known now. */
  readonly fold: () => Fold;
  /** Puts an entry on the disk and then takes it in; a mishap means that nothing was kept. */
  readonly append: (entry: Entry) => Appended | Mishap;
  /** All entries since the beginning, read from the disk. */
  readonly entries: () => readonly Entry[] | Mishap;
  /** Sentences for the player about what was found on opening. */
  readonly notices: readonly string[];
  /** Writes the cache and closes the file. */
  readonly close: () => void;
}

/** At most this many bad lines are named one by one. */
const NAMED = 3;

/** One sentence about lines that are no entries; null when there are none. */
export function badLinesSentence(path: string, bad: readonly BadLine[]): string | null {
  if (bad.length === 0) return null;
  const named = bad.slice(0, NAMED).map(({ line, reason }) => `line ${line} (${reason})`);
  const more = bad.length > NAMED ? ` and ${bad.length - NAMED} more` : '';
  return `${path}: left out, but kept in the file: ${named.join(', ')}${more}.`;
}

/** What reading a journal goes by besides its files. */
export interface Reading {
  /** The player's own day by the clock, so that an entry dated later hides nothing. */
  readonly today?: string;
  /** Told while the journal itself has to be read; the cache needs no word. */
  readonly progress?: Progress;
}

/** What the journal folds to, without opening it for writing; for commands that only print. */
export function readFold(
  files: StoreFiles,
  { today, progress }: Reading = {},
): { readonly fold: Fold; readonly bad: readonly BadLine[] } | Mishap {
  const cached = cachedFold(files, stampOf(files.journal));
  if (cached) return { fold: cached, bad: [] };
  const contents = readJournal(files.journal, undefined, progress);
  return isMishap(contents) ? contents : { fold: foldAll(contents.entries, today), bad: contents.bad };
}

const cachedFold = (files: StoreFiles, stamp: Stamp | null): Fold | null => stamp && readCache(files.cache, stamp);

interface Start {
  readonly fold: Fold;
  /** Lines of the journal that are no entries. */
  readonly bad: readonly BadLine[];
  readonly notices: readonly string[];
}

function read(files: StoreFiles, journal: Journal, { today, progress }: Reading): Start | Mishap {
  const notices = journal.notice === null ? [] : [journal.notice];
  const cached = cachedFold(files, journal.stamp());
  if (cached) return { fold: cached, bad: [], notices };
  const contents: Contents | Mishap = readJournal(files.journal, undefined, progress);
  if (isMishap(contents)) return contents;
  const sentence = badLinesSentence(files.journal, contents.bad);
  const fold = foldAll(contents.entries, today);
  return { fold, bad: contents.bad, notices: sentence === null ? notices : [...notices, sentence] };
}

/** Opens the journal for writing. The caller holds the data folder's lock. */
export function openStore(files: StoreFiles, reading: Reading = {}): Store | Mishap {
  const journal = openJournal(files.journal);
  if (isMishap(journal)) return journal;
  const start = read(files, journal, reading);
  if (isMishap(start)) {
    journal.close();
    return start;
  }
  return running(files, journal, start, reading.today);
}

/** The line that an entry moves: its own, or that of the entry it takes back. */
function lineOf(entry: Entry, among: readonly Entry[]): string | null {
  const moved = entry.kind === 'undo' ? among.find(({ id }) => id === entry.of) : entry;
  return moved && ofLadder(moved) ? lineName(moved) : null;
}

function running(files: StoreFiles, journal: Journal, { fold: first, bad, notices }: Start, today?: string): Store {
  let fold = first;
  const entries = (): readonly Entry[] | Mishap => {
    const contents = readJournal(files.journal);
    return isMishap(contents) ? contents : contents.entries;
  };
  /** The rare way: an undo of something from an earlier sitting, or a journal that another program has changed. */
  const again = (): { readonly fold: Fold; readonly all: readonly Entry[] } => {
    const all = entries();
    return isMishap(all) ? { fold, all: [] } : { fold: foldAll(all, today), all };
  };
  const takeIn = (entry: Entry): Appended => {
    const line = lineOf(entry, fold.recent);
    const news = journal.news();
    const next = news === null ? absorb(fold, entry) : null;
    if (next) {
      fold = next;
      return { line };
    }
    const { fold: anew, all } = again();
    fold = anew;
    return { line: lineOf(entry, all), ...(news === null ? {} : { notice: news }) };
  };
  const append = (entry: Entry): Appended | Mishap => journal.append(entry) ?? takeIn(entry);
  const close = (): void => {
    const stamp = journal.stamp();
    journal.close();
    // What another program has changed is read again at the next start.
    if (journal.news() === null) writeCache(files.cache, stamp, fold, bad);
  };
  return { fold: () => fold, append, entries, notices, close };
}
