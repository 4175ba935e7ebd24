/** A JSON document on the disk, as lowdb takes it. */
import type { SyncAdapter } from 'lowdb';
import { readBounded } from './bounded-file.ts';
import { replaceFile } from './whole-file.ts';

/** Ten years of a cache are some megabytes. */
const MOST_BYTES = 200_000_000;

/** A missing file is null and any other error is thrown; a document is on the disk whole or not at all. */
export const jsonFile = <T>(path: string): SyncAdapter<T> => ({
  read: () => {
    try {
      return JSON.parse(readBounded(path, MOST_BYTES).toString('utf8')) as T;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
      throw error;
    }
  },
  write: (document) => replaceFile(path, JSON.stringify(document)),
});
