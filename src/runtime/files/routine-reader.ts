/** Reads routine files from the disk; what is said of each is `plan/file/routine-file`'s. */
import { lstatSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { readBounded } from '../../disk/bounded-file.ts';
import { isInside } from '../../disk/inside-folder.ts';
import { type FileTrouble, START, inOrder } from '../../plan/file/place-in-file.ts';
import { reasonOf } from '../../common/file-reasons.ts';
import { harmless } from '../../common/harmless-text.ts';
import { type ParsedRoutine, parseRoutine, readUtf8 } from '../../plan/file/routine-file.ts';
import { identified } from '../../plan/routine/exercise-identity.ts';
import type { Routine } from '../../plan/routine/routine.ts';
import { packageRoot } from '../../audio/package-folder.ts';
import { type LoadedRoutine, type LoadedRoutines, leftOutIn, namesakeOf, routineFiles } from './routine-finder.ts';

const MOST_BYTES = 1_000_000;

type Read = { readonly text: string } | { readonly troubles: readonly FileTrouble[] };

const WRONG: Readonly<Record<string, string>> = {
  EFTYPE: 'this is not an ordinary file.',
  EISDIR: 'this is not an ordinary file.',
  EFBIG: 'the file is larger than a megabyte; that is no routine.',
};

function readText(path: string): Read {
  const file = basename(path);
  const wrong = (sentence: string): Read => ({ troubles: [{ file, ...START, sentence }] });
  try {
    return readUtf8(readBounded(path, MOST_BYTES), file);
  } catch (error) {
    return wrong(WRONG[(error as NodeJS.ErrnoException).code ?? ''] ?? `${reasonOf(error, 'read')}.`);
  }
}

type Included = { readonly text: string } | { readonly trouble: string };

function includeIn(folder: string, name: string): Included {
  const path = join(folder, name);
  if (!isInside(path, folder))
    return { trouble: `'${harmless(name)}' leads out of this folder; include files of the same folder.` };
  const read = readText(path);
  if ('text' in read) return read;
  const [first] = read.troubles;
  return { trouble: `'${harmless(name)}' cannot be included: ${first?.sentence ?? ''}` };
}

/** Beside the file, or where it was copied from; what is wrong beside the file is what is said. */
function readInclude(folders: readonly string[], name: string): Included {
  const there = folders.find((folder) => lstatSync(join(folder, name), { throwIfNoEntry: false })) ?? folders[0] ?? '';
  return includeIn(there, name);
}

/** Where a packaged routine's includes lie: a copy of it finds them there. */
export const packagedRoutines = (): string => join(packageRoot(), 'routines');

/** What a file of this folder may include. */
export const includeFrom =
  (folder: string) =>
  (name: string): Included =>
    readInclude([folder, packagedRoutines()], name);

/** Reads one routine file; every trouble has its place. What it includes lies beside it or in one of `elsewhere`. */
export function readRoutineFile(path: string, elsewhere: readonly string[] = [packagedRoutines()]): ParsedRoutine {
  const read = readText(path);
  if ('troubles' in read) return read;
  return parseRoutine(read.text, basename(path), (name) => readInclude([dirname(path), ...elsewhere], name));
}

/** A file among all that are found: of two whose names differ in their endings only, the first counts. */
export function readRoutineAmong(path: string, paths: readonly string[]): ParsedRoutine {
  const namesake = namesakeOf(path, paths);
  if (namesake === null) return readRoutineFile(path);
  const sentence =
    `${harmless(basename(namesake), 80)} has the same name but for its ending, and is the one that is used; ` +
    'give this file another name.';
  return { troubles: [{ file: basename(path), ...START, sentence }] };
}

const holdsDay = ({ routine }: LoadedRoutine): boolean => routine.parts.length > 0;

/** How a file that has a mistake in it may still be read. */
export type ReadSound = (path: string) => SoundRead;

export interface SoundRead {
  readonly routine: Routine | null;
  readonly troubles: readonly FileTrouble[];
}

const asRead = (parsed: ParsedRoutine): SoundRead =>
  'routine' in parsed ? { routine: parsed.routine, troubles: [] } : { routine: null, troubles: parsed.troubles };

const asItIs: ReadSound = (path) => asRead(readRoutineFile(path));

/** All routines of the folders. */
export function loadRoutines(folders: readonly string[], readSound: ReadSound = asItIs): LoadedRoutines {
  const paths = routineFiles(folders);
  const among = (path: string): SoundRead =>
    namesakeOf(path, paths) === null ? readSound(path) : asRead(readRoutineAmong(path, paths));
  const read = paths.map((path) => ({ path, ...among(path) }));
  const found = read.flatMap(({ path, routine }) => (routine ? [{ path, routine }] : []));
  const settled = identified(found.map(({ routine }) => routine));
  const sound = found.map(({ path, routine }, i) => ({ path, routine: settled[i] ?? routine }));
  return {
    routines: sound.filter(holdsDay),
    collections: sound.filter((one) => !holdsDay(one)),
    troubles: inOrder([...leftOutIn(folders), ...read.flatMap(({ troubles }) => troubles)]),
  };
}
