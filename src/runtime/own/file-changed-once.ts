/** Changes one file by its own text, and nothing that somebody else writes meanwhile is lost. */
import * as fs from 'node:fs';
import { dirname } from 'node:path';
import { type WholeDisk, createFile, replaceFile } from '../../disk/whole-file.ts';
import { makeFolder } from '../files/data-folder.ts';

/** Thrown where the file is another one than was read. */
class Meanwhile extends Error {}

const MOST_TRIES = 20;

const isCode = (error: unknown, code: string): boolean => (error as NodeJS.ErrnoException).code === code;

function textAt(path: string): string | null {
  try {
    return fs.readFileSync(path, 'utf8');
  } catch (error) {
    if (isCode(error, 'ENOENT')) return null;
    throw error;
  }
}

/** Looks once more in the moment before the new text takes the old one's place. */
const watching = (path: string, before: string | null, disk: WholeDisk): WholeDisk => ({
  ...disk,
  renameSync: (from, to) => {
    if (textAt(path) !== before) throw new Meanwhile();
    disk.renameSync(from, to);
  },
});

function put(path: string, before: string | null, text: string, disk: WholeDisk): void {
  if (before !== null) return replaceFile(path, text, watching(path, before, disk));
  makeFolder(dirname(path));
  createFile(path, text, {}, disk);
}

/**
 * `change` is given the text (empty where there is no file) and gives the new one, or null to leave it. Where the file
 * has changed by the time it is to be written, it is read and changed again.
 * @throws the file system's error; then the file is as it was.
 */
export function changeFile(path: string, change: (text: string) => string | null, disk: WholeDisk = fs): void {
  for (let k = 0; k < MOST_TRIES; k += 1) {
    const before = textAt(path);
    const after = change(before ?? '');
    if (after === null || after === before) return;
    try {
      return put(path, before, after, disk);
    } catch (error) {
      if (!(error instanceof Meanwhile) && !(before === null && isCode(error, 'EEXIST'))) throw error;
    }
  }
  throw new Error('it is being written to all the time');
}
