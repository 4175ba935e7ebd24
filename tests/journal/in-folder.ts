/** A journal or a whole store in a folder of its own, made before each test and gone after it. */
import * as fs from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach } from 'vitest';
import { type Mishap, isMishap } from '../../src/common/mishap.ts';
import type { Fold } from '../../src/journal/journal-fold.ts';
import { type Store, type StoreFiles, openStore } from '../../src/journal/journal-store.ts';
import { countsOf, repetitions } from '../../src/ladder/speed/line-history.ts';

/** Tells the test where its journal is. */
export function journalInFolder(at: (folder: string, path: string) => void): void {
  let folder: string;
  beforeEach(() => {
    folder = fs.mkdtempSync(join(tmpdir(), 'standside-'));
    at(folder, join(folder, 'journal.jsonl'));
  });
  afterEach(() => fs.rmSync(folder, { recursive: true }));
}

export interface StoreInFolder {
  readonly files: () => StoreFiles;
  readonly opened: () => Store;
}

/** Call it once in a test file. */
export function storeInFolder(): StoreInFolder {
  let files: StoreFiles;
  journalInFolder((folder, journal) => {
    files = { journal, cache: join(folder, 'cache.json') };
  });
  return { files: () => files, opened: () => sound(openStore(files)) };
}

/** What was read; fails where it could not be. */
export function sound<Value extends object>(value: Value | Mishap): Value {
  if (isMishap(value)) throw new Error(value.sentence);
  return value;
}

/** How many marks a fold holds, over all lines. */
export const marksIn = ({ lines }: Fold): number =>
  [...lines.values()].reduce((sum, line) => sum + repetitions(countsOf(line)), 0);
