/** The journal's file as bytes: read whole, opened for adding with every line whole, and what it is at a glance. */
import * as fs from 'node:fs';
import { dirname } from 'node:path';
import { type Mishap, fileMishap } from '../common/mishap.ts';
import { parseLine } from './journal-lines.ts';

/** The part of a file system that the journal needs; a test hands in one that fails. */
export type Disk = Pick<
  typeof fs,
  | 'openSync'
  | 'closeSync'
  | 'readSync'
  | 'writeSync'
  | 'fsyncSync'
  | 'fstatSync'
  | 'statSync'
  | 'ftruncateSync'
  | 'appendFileSync'
>;

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

export function bytesFrom(disk: Disk, fd: number, from: number, to: number): Buffer {
  const buffer = Buffer.alloc(to - from);
  let filled = 0;
  while (filled < buffer.length) {
    const read = disk.readSync(fd, buffer, filled, buffer.length - filled, from + filled);
    if (read === 0) break;
    filled += read;
  }
  return buffer.subarray(0, filled);
}

/** Opening a pipe may wait for ever; anything else says itself what it is. */
function isPipe(disk: Disk, path: string): boolean {
  const found = disk.statSync(path, { throwIfNoEntry: false });
  return found?.isFIFO() === true;
}

/** What is read of a journal's file; null when there is none. The file is not touched. */
export function inFile<T>(path: string, disk: Disk, read: (fd: number) => T): T | null | Mishap {
  let fd: number | null = null;
  try {
    if (isPipe(disk, path)) return { file: path, sentence: `${path} cannot be read: it is a pipe.` };
    fd = disk.openSync(path, 'r');
    return read(fd);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    return fileMishap(error, path, 'read');
  } finally {
    if (fd !== null) disk.closeSync(fd);
  }
}

/** A journal's text; null when there is none. */
export const readText = (path: string, disk: Disk = fs): string | null | Mishap =>
  inFile(path, disk, (fd) => bytesFrom(disk, fd, 0, disk.fstatSync(fd).size).toString('utf8'));

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

export function write(disk: Disk, fd: number, bytes: Buffer): void {
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
export function tryTruncate(disk: Disk, fd: number, size: number): boolean {
  try {
    disk.ftruncateSync(fd, size);
    return true;
  } catch {
    return false;
  }
}

/** A journal that is open for adding, every line of it whole. */
export interface Opened {
  readonly fd: number;
  /** One sentence when a cut-off last line was set aside. */
  readonly notice: string | null;
}

/** Opens the file that is at the path now, or makes it, and takes a cut-off last line out of the way. */
export function openWhole(path: string, disk: Disk): Opened | Mishap {
  let fd: number | null = null;
  try {
    if (isPipe(disk, path)) return { file: path, sentence: `${path} cannot be opened for writing: it is a pipe.` };
    fd = disk.openSync(path, 'a+', 0o600);
    if (disk.fstatSync(fd).size === 0) keepName(disk, path);
    return { fd, notice: heal(disk, fd, path) };
  } catch (error) {
    if (fd !== null) disk.closeSync(fd);
    return fileMishap(error, path, 'opened for writing');
  }
}
