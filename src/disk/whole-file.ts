/**
 * Files that are written whole or not at all: a second file beside it takes the text, is forced to the disk, and only
 * then gets the name. A power cut leaves the old file or the new one, never half of one.
 */
import * as fs from 'node:fs';
import { dirname, resolve } from 'node:path';

/** The part of a file system that is needed; a test hands in one that fails. */
export type WholeDisk = Pick<
  typeof fs,
  'openSync' | 'closeSync' | 'writeFileSync' | 'fchmodSync' | 'fsyncSync' | 'renameSync' | 'linkSync' | 'rmSync'
>;

export interface NewFile {
  /** As `chmod` counts; the player's own mask may take from it. */
  readonly mode?: number;
  /** False where nothing is lost with the text, so that nobody need wait for the disk. */
  readonly forced?: boolean;
}

/** Where a link leads, even if nothing is there yet; any other path is itself. */
function behindLinks(path: string): string {
  try {
    return fs.realpathSync(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    const link = fs.lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true;
    return link ? behindLinks(resolve(dirname(path), fs.readlinkSync(path))) : path;
  }
}

const modeOf = (path: string): number | null => {
  const found = fs.statSync(path, { throwIfNoEntry: false });
  return found ? found.mode & 0o777 : null;
};

/** Makes a new name itself survive a power cut, where the platform can do so. */
function forceName(path: string, disk: WholeDisk): void {
  try {
    const fd = disk.openSync(dirname(path), 'r');
    disk.fsyncSync(fd);
    disk.closeSync(fd);
  } catch {
    // Windows cannot open a folder; its file systems look after names themselves.
  }
}

interface Draft extends Required<NewFile> {
  /** The mode of the file whose place it takes; null when there is none. */
  readonly kept: number | null;
}

/** Puts the content through a file handle; a text, or what is made piece by piece. */
type Content = string | ((fd: number) => void);

function writeDraft(draft: string, content: Content, { mode, kept, forced }: Draft, disk: WholeDisk): void {
  const fd = disk.openSync(draft, 'wx', mode);
  try {
    if (kept !== null) disk.fchmodSync(fd, kept);
    if (typeof content === 'string') disk.writeFileSync(fd, content);
    else content(fd);
    if (forced) disk.fsyncSync(fd);
  } finally {
    disk.closeSync(fd);
  }
}

/** Gives the second file its name by `rename`; whatever happens, no second file stays behind. */
function byDraft(path: string, content: Content, how: Draft, disk: WholeDisk, rename: (draft: string) => void): void {
  const draft = `${path}.${process.pid}.new`;
  // One that a process of the same number left behind in a power cut.
  disk.rmSync(draft, { force: true });
  try {
    writeDraft(draft, content, how, disk);
    rename(draft);
  } finally {
    disk.rmSync(draft, { force: true });
  }
  if (how.forced) forceName(path, disk);
}

/**
 * Puts a text, or what `content` writes, in the place of a file, or makes the file. Its mode stays unless one is asked
 * for, and a link stays a link.
 * @throws the file system's error; then the file is as it was.
 */
export function replaceFile(
  path: string,
  content: Content,
  disk: WholeDisk = fs,
  { mode }: Pick<NewFile, 'mode'> = {},
): void {
  const target = behindLinks(path);
  const how = { mode: mode ?? 0o666, kept: mode ?? modeOf(target), forced: true };
  byDraft(target, content, how, disk, (draft) => disk.renameSync(draft, target));
}

/** For file systems without links (a memory stick): the name is claimed, then the text put under it. */
function nameClaimed(draft: string, path: string, disk: WholeDisk): void {
  disk.closeSync(disk.openSync(path, 'wx'));
  try {
    disk.renameSync(draft, path);
  } catch (error) {
    disk.rmSync(path, { force: true });
    throw error;
  }
}

/** A link either makes the name or finds it taken; so does a claim. */
function nameNew(draft: string, path: string, disk: WholeDisk): void {
  try {
    disk.linkSync(draft, path);
  } catch {
    nameClaimed(draft, path, disk);
  }
}

/**
 * Makes a file that is not there yet.
 * @throws the file system's error: EEXIST where something has the name, be it a link that leads nowhere.
 */
export function createFile(path: string, content: Content, how: NewFile = {}, disk: WholeDisk = fs): void {
  const draft = { mode: 0o666, forced: true, ...how, kept: null };
  byDraft(path, content, draft, disk, (from) => nameNew(from, path, disk));
}
