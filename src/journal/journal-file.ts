/**
 * The journal's file: one entry, one line, only ever added to. A line is on the disk before `append`
 * returns. Whatever goes wrong, no line that was once written is lost.
 */
import * as fs from 'node:fs';
import type { Entry } from '../diary/entry.ts';
import { type Mishap, isMishap } from '../common/mishap.ts';
import { type Disk, type Stamp, inFile, openWhole } from './journal-disk.ts';
import { type OpenFile, addLines, keptLines, settle } from './journal-in-place.ts';
import type { Contents } from './journal-lines.ts';
import { type Progress, parsePieces } from './journal-pieces.ts';

export interface Journal {
  readonly path: string;
  /** One sentence when a cut-off last line was set aside on opening. */
  readonly notice: string | null;
  /** Size in bytes and time of the last change: what tells a cache that it is still right. */
  readonly stamp: () => Stamp;
  /** Adds one line and forces it to the disk. A value means that nothing was added. */
  readonly append: (entry: Entry) => Mishap | null;
  /** Adds many lines at once, as another journal holds them; all or none. */
  readonly appendLines: (lines: readonly string[]) => Mishap | null;
  /** One sentence when another program was found to have changed the file since this was last asked. */
  readonly news: () => string | null;
  /** What was kept is in the file that is at the path now, whatever became of the one that was opened. */
  readonly close: () => void;
}

const EMPTY: Contents = { entries: [], foreign: [], bad: [], torn: null };

/** All that a journal says; a missing file says nothing. */
export const readJournal = (path: string, disk: Disk = fs, progress: Progress = () => {}): Contents | Mishap =>
  inFile(path, disk, (fd) => parsePieces(disk, fd, progress)) ?? EMPTY;

/**
 * Opens a journal for adding, after taking a cut-off last line out of its way.
 * The caller holds the data folder's lock.
 */
export function openJournal(path: string, disk: Disk = fs): Journal | Mishap {
  const opened = openWhole(path, disk);
  return isMishap(opened) ? opened : { path, notice: opened.notice, ...appending(keptLines(disk, path, opened.fd)) };
}

function appending(file: OpenFile): Omit<Journal, 'path' | 'notice'> {
  let open = true;
  const appendLines = (lines: readonly string[]): Mishap | null => {
    if (!open) throw new Error(`${file.path} is closed`);
    return settle(file) ?? addLines(file, lines);
  };
  const append = (entry: Entry): Mishap | null => appendLines([JSON.stringify(entry)]);
  const stamp = (): Stamp => {
    const { size, mtimeMs } = file.disk.fstatSync(file.fd);
    return { bytes: size, changed: mtimeMs };
  };
  const news = (): string | null => {
    const { found } = file;
    file.found = null;
    return found;
  };
  const close = (): void => {
    if (!open) return;
    open = false;
    settle(file);
    file.disk.closeSync(file.fd);
  };
  return { append, appendLines, stamp, news, close };
}
