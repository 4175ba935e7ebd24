/**
 * What the journal folds to, in a small document beside it, so that a start need not read ten years of
 * marks. It may be thrown away at any time; it is used only if the journal has not changed since.
 */
import type { BadLine } from './journal-lines.ts';
import { lineName } from '../ladder/line.ts';
import { LowSync } from 'lowdb';
import { sealedJson } from '../disk/sealed-json.ts';
import type { Stamp } from './journal-disk.ts';
import type { Tally } from '../ladder/speed/line-history.ts';
import { EMPTY_FOLD, type Fold } from './journal-fold.ts';
import type { LineState } from './line-fold.ts';

/** Raise it whenever the fold learns something new: older caches are then rebuilt. */
const CACHE_VERSION = 3;

type PackedTally = readonly [day: string, bpm: number, clean: number, tense: number, missed: number];
type PackedLine = Omit<LineState, 'tallies'> & { readonly tallies: readonly PackedTally[] };

interface Document {
  readonly v: number;
  readonly journal: Stamp;
  readonly lines: readonly PackedLine[];
  readonly rest: Pick<Fold, 'others' | 'lastId' | 'lastDay'>;
}

const pack = ({ day, bpm, clean, tense, missed }: Tally): PackedTally => [day, bpm, clean, tense, missed];
const unpack = ([day, bpm, clean, tense, missed]: PackedTally): Tally => ({ day, bpm, clean, tense, missed });

const documentAt = (path: string): LowSync<Document | null> => new LowSync(sealedJson<Document>(path), null);

function unpacked({ lines, rest }: Document): Fold {
  const states = lines.map((line): LineState => ({ ...line, tallies: line.tallies.map(unpack) }));
  return { ...EMPTY_FOLD, ...rest, lines: new Map(states.map((state) => [lineName(state.line), state])) };
}

/** Null when there is no cache, or none that fits the journal. */
export function readCache(path: string, journal: Stamp): Fold | null {
  try {
    const document = documentAt(path);
    document.read();
    const { data } = document;
    if (data?.v !== CACHE_VERSION) return null;
    const same = data.journal.bytes === journal.bytes && data.journal.changed === journal.changed;
    return same ? unpacked(data) : null;
  } catch {
    return null;
  }
}

/**
 * A cache that cannot be written is no loss: an older one is left, and does not fit the journal. Of a journal with
 * bad lines none is written: it is read again at each start, so that they are named each time.
 */
export function writeCache(path: string, journal: Stamp, fold: Fold, bad: readonly BadLine[] = []): void {
  if (bad.length > 0) return;
  const { others, lastId, lastDay } = fold;
  const lines = [...fold.lines.values()].map((state): PackedLine => ({ ...state, tallies: state.tallies.map(pack) }));
  try {
    const document = documentAt(path);
    document.data = { v: CACHE_VERSION, journal, lines, rest: { others, lastId, lastDay } };
    document.write();
  } catch {
    // The next start folds the journal again.
  }
}
