/**
 * The open journal stays the one at its path. Sync tools and editors put another file in its place, or write it anew:
 * before and after each line the file is looked at, and what was kept is carried over to the one that is there now.
 */
import type { Stats } from 'node:fs';
import { type Mishap, fileMishap, isMishap } from '../common/mishap.ts';
import { type Disk, bytesFrom, openWhole, readText, tryTruncate, write } from './journal-disk.ts';

/** A journal that is open for adding, and what was kept in it since. */
export interface OpenFile {
  readonly disk: Disk;
  readonly path: string;
  fd: number;
  /** How the file was when we last looked; any other sign says that somebody else has changed it. */
  sign: string;
  /** The size to go back to before anything else is written; null when the file ends in a whole line. */
  owed: number | null;
  /** The lines that were acknowledged since the journal was opened. */
  readonly kept: string[];
  /** All lines of a file that was taken away and is not yet made anew. */
  lost: readonly string[] | null;
  /** One sentence about another program's change, until it is asked for. */
  found: string | null;
}

const signOf = ({ dev, ino, size, mtimeMs }: Stats): string => `${dev} ${ino} ${size} ${mtimeMs}`;

const statAt = ({ disk, path }: OpenFile): Stats | undefined => disk.statSync(path, { throwIfNoEntry: false });

export const keptLines = (disk: Disk, path: string, fd: number): OpenFile => ({
  disk,
  path,
  fd,
  sign: signOf(disk.fstatSync(fd)),
  owed: null,
  kept: [],
  lost: null,
  found: null,
});

const textIn = (lines: readonly string[]): Buffer => Buffer.from(lines.map((line) => `${line}\n`).join(''));

const linesOf = (text: string): readonly string[] => text.split('\n').filter((line) => line !== '');

const allIn = ({ disk, fd }: OpenFile): readonly string[] =>
  linesOf(bytesFrom(disk, fd, 0, disk.fstatSync(fd).size).toString('utf8'));

/** Those of the kept lines that the file at the path lacks. */
function lackingAt({ disk, path, lost, kept }: OpenFile): { readonly lines: readonly string[] } | Mishap {
  const text = readText(path, disk);
  if (isMishap(text)) return text;
  const there = new Set(linesOf(text ?? ''));
  return { lines: (lost ?? kept).filter((line) => !there.has(line)) };
}

/** Writes lines to a file and forces them to the disk; null, or why not: then the file is as it was, or `owed`. */
function put(file: Pick<OpenFile, 'disk' | 'path' | 'fd' | 'owed'>, lines: readonly string[]): Mishap | null {
  const { disk, fd, path } = file;
  if (lines.length === 0) return null;
  const { size } = disk.fstatSync(fd);
  try {
    write(disk, fd, textIn(lines));
    disk.fsyncSync(fd);
    return null;
  } catch (error) {
    if (!tryTruncate(disk, fd, size)) file.owed = size;
    return fileMishap(error, path, 'written');
  }
}

const sentenceFor = (path: string, count: number): string =>
  `${path} was changed by another program meanwhile; ` +
  (count === 0 ? 'nothing that was kept is missing.' : `${count} lines that it lacked were added to it again.`);

/** Opens the file that is at the path now and carries over what it lacks. */
function takeUp(file: OpenFile): Mishap | null {
  const { disk, path } = file;
  if (statAt(file) === undefined) file.lost ??= allIn(file);
  const opened = openWhole(path, disk);
  if (isMishap(opened)) return opened;
  const lacking = lackingAt(file);
  const next = { disk, path, fd: opened.fd, owed: null };
  const trouble = isMishap(lacking) ? lacking : put(next, lacking.lines);
  if (trouble || isMishap(lacking)) {
    disk.closeSync(opened.fd);
    return trouble;
  }
  disk.closeSync(file.fd);
  const sign = signOf(disk.fstatSync(opened.fd));
  Object.assign(file, { fd: opened.fd, owed: null, lost: null, sign, found: sentenceFor(path, lacking.lines.length) });
  return null;
}

/** Puts back what a failed write left half done; then the file at the path is the open one, with all that was kept. */
export function settle(file: OpenFile): Mishap | null {
  try {
    const found = statAt(file);
    if (found === undefined || signOf(found) !== file.sign) return takeUp(file);
    if (file.owed === null) return null;
    if (!tryTruncate(file.disk, file.fd, file.owed))
      return { file: file.path, sentence: `${file.path} cannot be repaired after a failed write.` };
    file.owed = null;
    file.sign = signOf(file.disk.fstatSync(file.fd));
    return null;
  } catch (error) {
    return fileMishap(error, file.path, 'written');
  }
}

/** Whether the name still leads to the file that was just written. */
function isInPlace(file: OpenFile): boolean {
  const found = statAt(file);
  return found !== undefined && signOf(found) === file.sign;
}

/** Adds lines to a settled file; all or none. The name may have been taken while they were written. */
export function addLines(file: OpenFile, lines: readonly string[]): Mishap | null {
  const { size } = file.disk.fstatSync(file.fd);
  const trouble = put(file, lines);
  file.sign = signOf(file.disk.fstatSync(file.fd));
  if (trouble) return trouble;
  file.kept.push(...lines);
  const moved = isInPlace(file) ? null : settle(file);
  if (moved === null) return null;
  file.kept.length -= lines.length;
  file.lost = file.lost?.slice(0, -lines.length) ?? null;
  if (!tryTruncate(file.disk, file.fd, size)) file.owed = size;
  return moved;
}
