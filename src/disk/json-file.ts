/** A JSON document on the disk, as lowdb takes it. */
import { readFileSync } from 'node:fs';
import type { SyncAdapter } from 'lowdb';
import { replaceFile } from './whole-file.ts';

/** A missing file is null and any other error is thrown; a document is on the disk whole or not at all. */
export const jsonFile = <T>(path: string): SyncAdapter<T> => ({
  read: () => {
    try {
      return JSON.parse(readFileSync(path, 'utf8')) as T;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
      throw error;
    }
  },
  write: (document) => replaceFile(path, JSON.stringify(document)),
});
