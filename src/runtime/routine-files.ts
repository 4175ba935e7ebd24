/** Routine files on the disk: the packaged ones and the player's own. */
import { readFileSync, readdirSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, sep } from 'node:path';
import type { Exercise } from '../plan/exercise.ts';
import { type FileTrouble, START, inOrder, troubleLine } from '../plan/file-trouble.ts';
import { harmless } from '../plan/harmless.ts';
import { nearest } from '../plan/nearest.ts';
import { type ParsedRoutine, parseRoutine, readUtf8 } from '../plan/parse-routine.ts';
import type { Routine } from '../plan/routine.ts';
import { packageRoot } from './package-root.ts';
import { Trouble } from './trouble.ts';

/** A routine and the file it was read from. */
export interface LoadedRoutine {
  readonly path: string;
  readonly routine: Routine;
}

export interface LoadedRoutines {
  /** Those that hold a day. */
  readonly routines: readonly LoadedRoutine[];
  /** Files of exercises without parts, made to be included; their exercises can be practised. */
  readonly collections: readonly LoadedRoutine[];
  /** What is wrong with the files that could not be used; the others are still there. */
  readonly troubles: readonly FileTrouble[];
}

const MOST_BYTES = 1_000_000;

const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? '';

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'the file may not be read',
  EPERM: 'the file may not be read',
  EISDIR: 'this is a folder',
  ELOOP: 'the link leads round in a circle',
};

type Read = { readonly text: string } | { readonly troubles: readonly FileTrouble[] };

/** Bytes are looked at before they are read: a pipe would block and a huge file is no routine. */
function readText(path: string): Read {
  const file = basename(path);
  const wrong = (sentence: string): Read => ({ troubles: [{ file, ...START, sentence }] });
  try {
    const stat = statSync(path);
    if (!stat.isFile()) return wrong('this is not an ordinary file.');
    if (stat.size > MOST_BYTES) return wrong('the file is larger than a megabyte; that is no routine.');
    return readUtf8(readFileSync(path), file);
  } catch (error) {
    const reason = REASONS[codeOf(error)];
    if (reason === undefined) throw error;
    return wrong(`${reason}.`);
  }
}

function isInside(path: string, folder: string): boolean {
  try {
    return realpathSync(path).startsWith(realpathSync(folder) + sep);
  } catch {
    return true; // What is missing is reported by reading it.
  }
}

function readInclude(folder: string, name: string): { readonly text: string } | { readonly trouble: string } {
  const path = join(folder, name);
  if (!isInside(path, folder)) return { trouble: `'${harmless(name)}' leads out of this folder; include files of the same folder.` };
  const read = readText(path);
  if ('text' in read) return read;
  const [first] = read.troubles;
  return { trouble: `'${harmless(name)}' cannot be included: ${first?.sentence ?? ''}` };
}

/** Reads one routine file; every trouble has its place. */
export function readRoutineFile(path: string): ParsedRoutine {
  const read = readText(path);
  if ('troubles' in read) return read;
  return parseRoutine(read.text, basename(path), (name) => readInclude(dirname(path), name));
}

/** The folders routines come from: the player's own first, so that it may replace a packaged file of the same name. */
export const routineFolders = (dataFolder: string): readonly string[] => [
  join(dataFolder, 'routines'),
  join(packageRoot(), 'routines'),
];

function filesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder).filter((name) => /\.ya?ml$/.test(name) && !name.startsWith('.')).sort();
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return [];
    if (REASONS[codeOf(error)] === undefined && codeOf(error) !== 'ENOTDIR') throw error;
    throw new Trouble(`The routines in ${harmless(folder, 200)} cannot be read; check the folder's permissions.`);
  }
}

/** The files of all folders; of two with the same name the earlier folder's counts. */
export function routineFiles(folders: readonly string[]): readonly string[] {
  const paths = new Map<string, string>();
  for (const folder of folders) {
    for (const name of filesIn(folder)) if (!paths.has(name)) paths.set(name, join(folder, name));
  }
  return [...paths.values()];
}

const holdsDay = ({ routine }: LoadedRoutine): boolean => routine.parts.length > 0;

/** All routines of the folders. */
export function loadRoutines(folders: readonly string[]): LoadedRoutines {
  const read = routineFiles(folders).map((path) => ({ path, parsed: readRoutineFile(path) }));
  const sound = read.flatMap(({ path, parsed }) => ('routine' in parsed ? [{ path, routine: parsed.routine }] : []));
  return {
    routines: sound.filter(holdsDay),
    collections: sound.filter((one) => !holdsDay(one)),
    troubles: inOrder(read.flatMap(({ parsed }) => ('troubles' in parsed ? parsed.troubles : []))),
  };
}

/** The player's own routines first, then the packaged ones for their instrument, then the rest. */
export function orderedFor(loaded: LoadedRoutines, instrument: string): LoadedRoutines {
  const packaged = packageRoot();
  const rank = ({ path, routine }: LoadedRoutine): number => (!path.startsWith(packaged) ? 0 : routine.instrument === instrument ? 1 : 2);
  return { ...loaded, routines: loaded.routines.toSorted((a, b) => rank(a) - rank(b)) };
}

export interface FoundExercise {
  readonly exercise: Exercise;
  readonly routine: Routine;
}

/** Every exercise by its id; of two with the same id the earlier routine's. */
export function exercisesOf(loaded: LoadedRoutines): ReadonlyMap<string, FoundExercise> {
  const found = new Map<string, FoundExercise>();
  for (const { routine } of [...loaded.routines, ...loaded.collections]) {
    for (const exercise of routine.exercises) if (!found.has(exercise.id)) found.set(exercise.id, { exercise, routine });
  }
  return found;
}

/** Throws Trouble that suggests the nearest id. */
export function findExercise(loaded: LoadedRoutines, id: string): FoundExercise {
  const exercises = exercisesOf(loaded);
  const found = exercises.get(id);
  if (found !== undefined) return found;
  const meant = nearest(id, exercises.keys());
  const hint = meant === null ? "'standside exercises' lists them" : `did you mean '${meant}'?`;
  throw new Trouble(`There is no exercise '${harmless(id, 40)}'; ${hint}${meant === null ? '.' : ''}`);
}

/** A routine by its id. @throws Trouble that suggests the nearest. */
export function findRoutine(loaded: LoadedRoutines, id: string): LoadedRoutine {
  const all = [...loaded.routines, ...loaded.collections];
  const found = all.find(({ routine }) => routine.id === id);
  if (found !== undefined) return found;
  const broken = loaded.troubles.find(({ file }) => file.replace(/\.ya?ml$/, '') === id);
  if (broken !== undefined) throw new Trouble(`The routine '${harmless(id, 40)}' cannot be used: ${troubleLine(broken)}`);
  const ids = all.map(({ routine }) => routine.id);
  const meant = nearest(id, ids);
  throw new Trouble(`There is no routine '${harmless(id, 40)}'; ${meant === null ? `there are ${ids.join(', ')}.` : `did you mean '${meant}'?`}`);
}
