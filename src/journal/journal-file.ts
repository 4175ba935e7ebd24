/**
 * The journal's file: one entry, one line, only ever added to. A line is on the disk before `append`
 * returns. Whatever goes wrong, no line that was once written is lost.
 */
import * as fs from 'node:fs';
import { dirname } from 'node:path';
import type { Entry } from '../diary/entry.ts';
import { type Mishap, fileMishap, isMishap } from '../common/mishap.ts';
import { type Contents, parseJournal, parseLine } from './journal-lines.ts';

/** The part of a file system that the journal needs; a test hands in one that fails. */
export type Disk = Pick<
  typeof fs,
  'openSync' | 'closeSync' | 'readSync' | 'writeSync' | 'fsyncSync' | 'fstatSync' | 'ftruncateSync' | 'appendFileSync'
>;

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
  readonly close: () => void;
}

export interface Stamp {
  readonly bytes: number;
  readonly changed: number;
}

/** Null when there is no journal yet, or none that can be looked at: reading it says what is wrong. */
export function stampOf(path: string): Stamp | null {
  try {
    const { size, mtimeMs } = fs.statSync(path);
    return { bytes: size, changed: mtimeMs };
  } catch {
    return null;
  }
}

const EMPTY: Contents = { entries: [], foreign: [], bad: [], torn: null };

function bytesFrom(disk: Disk, fd: number, from: number, to: number): Buffer {
  const buffer = Buffer.alloc(to - from);
  let filled = 0;
  while (filled < buffer.length) {
    const read = disk.readSync(fd, buffer, filled, buffer.length - filled, from + filled);
    if (read === 0) break;
    filled += read;
  }
  return buffer.subarray(0, filled);
}

/** A journal's text; null when there is none. The file is not touched. */
export function readText(path: string, disk: Disk = fs): string | null | Mishap {
  let fd: number | null = null;
  try {
    fd = disk.openSync(path, 'r');
    return bytesFrom(disk, fd, 0, disk.fstatSync(fd).size).toString('utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    return fileMishap(error, path, 'read');
  } finally {
    if (fd !== null) disk.closeSync(fd);
  }
}

/** All that a journal says; a missing file says nothing. */
export function readJournal(path: string, disk: Disk = fs): Contents | Mishap {
  const text = readText(path, disk);
  if (isMishap(text)) return text;
  return text === null ? EMPTY : parseJournal(text);
}

const LINE_BREAK = 10;
const CHUNK = 65_536;

/** Where the last line starts that has no line break yet; the file's size when every line is whole. */
function tailStart(disk: Disk, fd: number, size: number): number {
  for (let to = size; to > 0; to -= CHUNK) {
    const from = Math.max(0, to - CHUNK);
    const at = bytesFrom(disk, fd, from, to).lastIndexOf(LINE_BREAK);
    if (at >= 0) return from + at + 1;
  }
  return 0;
}

function write(disk: Disk, fd: number, bytes: Buffer): void {
  for (let done = 0; done < bytes.length;) done += disk.writeSync(fd, bytes, done, bytes.length - done);
}

/** Completes a last line that only lacks its line break; sets any other aside. */
function heal(disk: Disk, fd: number, path: string): string | null {
  const { size } = disk.fstatSync(fd);
  const start = tailStart(disk, fd, size);
  if (start === size) return null;
  const tail = bytesFrom(disk, fd, start, size);
  if (parseLine(tail.toString('utf8')).is !== 'bad') {
    write(disk, fd, Buffer.from('\n'));
    disk.fsyncSync(fd);
    return null;
  }
  disk.appendFileSync(`${path}.torn`, Buffer.concat([tail, Buffer.from('\n')]), { mode: 0o600, flush: true });
  disk.ftruncateSync(fd, start);
  disk.fsyncSync(fd);
  return (
    `The last line of ${path} was cut off while it was written; it was set aside in ${path}.torn, and ` +
    `every other line is kept.`
  );
}

/** Makes the file's name itself survive a power failure, where the platform can do so. */
function keepName(disk: Disk, path: string): void {
  let fd: number | null = null;
  try {
    fd = disk.openSync(dirname(path), 'r');
    disk.fsyncSync(fd);
  } catch {
    // Windows cannot open a folder; its file systems look after names themselves.
  } finally {
    if (fd !== null) disk.closeSync(fd);
  }
}

/** Puts back the size before a failed write; as long as that fails too, nothing more may be added. */
function tryTruncate(disk: Disk, fd: number, size: number): boolean {
  try {
    disk.ftruncateSync(fd, size);
    return true;
  } catch {
    return false;
  }
}

/**
 * Opens a journal for adding, after taking a cut-off last line out of its way.
 * The caller holds the data folder's lock.
 */
export function openJournal(path: string, disk: Disk = fs): Journal | Mishap {
  let fd: number | null = null;
  try {
    fd = disk.openSync(path, 'a+', 0o600);
    if (disk.fstatSync(fd).size === 0) keepName(disk, path);
    const notice = heal(disk, fd, path);
    return { path, notice, ...appending(disk, fd, path) };
  } catch (error) {
    if (fd !== null) disk.closeSync(fd);
    return fileMishap(error, path, 'opened for writing');
  }
}

function appending(disk: Disk, fd: number, path: string): Omit<Journal, 'path' | 'notice'> {
  /** The size to go back to before anything else is written; null when the file ends in a whole line. */
  let owed: number | null = null;
  let open = true;
  const appendLines = (lines: readonly string[]): Mishap | null => {
    if (!open) throw new Error(`${path} is closed`);
    if (owed !== null && !tryTruncate(disk, fd, owed))
      return { file: path, sentence: `${path} cannot be repaired after a failed write.` };
    owed = null;
    const { size } = disk.fstatSync(fd);
    try {
      write(disk, fd, Buffer.from(lines.map((line) => `${line}\n`).join('')));
      disk.fsyncSync(fd);
      return null;
    } catch (error) {
      if (!tryTruncate(disk, fd, size)) owed = size;
      return fileMishap(error, path, 'written');
    }
  };
  const append = (entry: Entry): Mishap | null => appendLines([JSON.stringify(entry)]);
  const stamp = (): Stamp => {
    const { size, mtimeMs } = disk.fstatSync(fd);
    return { bytes: size, changed: mtimeMs };
  };
  const close = (): void => {
    if (open) disk.closeSync(fd);
    open = false;
  };
  return { append, appendLines, stamp, close };
}
