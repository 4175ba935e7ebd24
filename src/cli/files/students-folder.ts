/** The journals and reports of many students in one folder: files, or a folder for each with a journal in it. */
import { type Dirent, readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { reasonOf } from '../../common/file-reasons.ts';
import { harmless } from '../../common/harmless-text.ts';
import { Trouble } from '../../common/trouble.ts';

export interface StudentFile {
  /** The file's name without its ending, or the folder's. */
  readonly name: string;
  readonly path: string;
  readonly is: 'journal' | 'report';
}

const ENDINGS = [
  { ending: '.jsonl', is: 'journal' },
  { ending: '.html', is: 'report' },
] as const;

function fileOf(folder: string, entry: Dirent): readonly StudentFile[] {
  const path = join(folder, entry.name);
  if (entry.isDirectory()) {
    const journal = join(path, 'journal.jsonl');
    return statSync(journal, { throwIfNoEntry: false }) ? [{ name: entry.name, path: journal, is: 'journal' }] : [];
  }
  const found = ENDINGS.find(({ ending }) => entry.name.endsWith(ending));
  return found ? [{ name: entry.name.slice(0, -found.ending.length), path, is: found.is }] : [];
}

/** In the order of their names. @throws Trouble where the folder cannot be read, or nothing in it is a student's. */
export function studentFiles(folder: string): readonly StudentFile[] {
  const shown = harmless(folder, 200);
  let files: readonly StudentFile[];
  try {
    files = readdirSync(folder, { withFileTypes: true }).flatMap((entry) => fileOf(folder, entry));
  } catch (error) {
    throw new Trouble(`The folder ${shown} cannot be read: ${reasonOf(error, 'read')}.`);
  }
  if (files.length > 0) return [...files].sort((a, b) => (a.name < b.name ? -1 : 1));
  throw new Trouble(
    `There is neither a journal nor a report in ${shown}; put NAME.jsonl, NAME.html or NAME/journal.jsonl there.`,
  );
}

/** Larger than thirty years of practice. */
const MOST_BYTES = 256 * 1024 * 1024;

/** What a file says, or why it cannot be read; a pipe or a device is not opened. */
export function studentText(path: string): { readonly text: string } | { readonly reason: string } {
  try {
    const found = statSync(path);
    if (!found.isFile()) return { reason: 'it is not an ordinary file' };
    if (found.size > MOST_BYTES) return { reason: 'it is larger than such a file can be' };
    return { text: readFileSync(path, 'utf8') };
  } catch (error) {
    return { reason: reasonOf(error, 'read') };
  }
}
