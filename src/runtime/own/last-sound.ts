/**
 * The last sound version of each of the player's own routine files. A file with a mistake in it never loses the day:
 * until it is mended, what it said before is used, and the mistake is named.
 */
import { readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { replaceFile } from '../../disk/whole-file.ts';
import type { FileTrouble } from '../../plan/file/place-in-file.ts';
import type { Routine } from '../../plan/routine/routine.ts';
import { makeFolder } from '../files/data-folder.ts';
import { type ReadSound, type SoundRead, packagedRoutines, readRoutineFile } from '../files/routine-reader.ts';

const textOf = (path: string): string | null => {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
};

/** A copy that cannot be kept costs nothing today. */
function keepCopy(path: string, copy: string): void {
  const text = textOf(path);
  if (text === null || text === textOf(copy)) return;
  try {
    makeFolder(dirname(copy));
    replaceFile(copy, text);
  } catch {
    // A full disk is said where it loses something.
  }
}

const MEANWHILE = {
  before: 'Until it is mended, what it said before is used.',
  packaged: 'Until it is mended, the packaged file of this name is used.',
} as const;

const said = ([first, ...others]: readonly FileTrouble[], meanwhile: string): readonly FileTrouble[] =>
  first ? [{ ...first, sentence: `${first.sentence} ${meanwhile}` }, ...others] : [];

const soundAt = (path: string, elsewhere: readonly string[]): Routine | null => {
  const parsed = readRoutineFile(path, elsewhere);
  return 'routine' in parsed ? parsed.routine : null;
};

function instead(path: string, folder: string, troubles: readonly FileTrouble[]): SoundRead {
  const copy = join(folder, basename(path));
  const before = soundAt(copy, [dirname(path), packagedRoutines()]);
  if (before) return { routine: before, troubles: said(troubles, MEANWHILE.before) };
  const packaged = soundAt(join(packagedRoutines(), basename(path)), []);
  return { routine: packaged, troubles: packaged ? said(troubles, MEANWHILE.packaged) : troubles };
}

/** Reads the files of the player's own folder; those of the package are as they are. */
export const withLastSound =
  (ownFolder: string, soundFolder: string): ReadSound =>
  (path) => {
    const parsed = readRoutineFile(path);
    if ('routine' in parsed) {
      if (dirname(path) === ownFolder) keepCopy(path, join(soundFolder, basename(path)));
      return { routine: parsed.routine, troubles: [] };
    }
    return dirname(path) === ownFolder
      ? instead(path, soundFolder, parsed.troubles)
      : { routine: null, troubles: parsed.troubles };
  };
