/**
 * Where routine files lie, and what is found among those that were read. Light: reading them is `routine-files`' work.
 */
import { readdirSync } from 'node:fs';
import { basename, dirname, join, sep } from 'node:path';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { type FileTrouble, START, troubleLine } from '../../plan/file/place-in-file.ts';
import { reasonOf } from '../../common/file-reasons.ts';
import { harmless, holdsControls } from '../../common/harmless-text.ts';
import { qualifiedName } from '../../plan/routine/exercise-identity.ts';
import { didYouMean } from '../../common/nearest-word.ts';
import { type Routine, isForInstrument } from '../../plan/routine/routine.ts';
import { packageRoot } from '../../audio/package-folder.ts';
import { Trouble } from '../../common/trouble.ts';

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

/** The folders routines come from: the player's own first, so that it may replace a packaged file of the same name. */
export const routineFolders = (dataFolder: string): readonly string[] => [
  join(dataFolder, 'routines'),
  join(packageRoot(), 'routines'),
];

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder)
      .filter((name) => /\.ya?ml$/.test(name) && !name.startsWith('.'))
      .sort();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
    throw new Trouble(`The routines in ${harmless(folder, 200)} cannot be read: ${reasonOf(error, 'read')}.`);
  }
}

/** A name that a terminal obeys would stand in titles and sentences: such a file is left out, and that is said. */
const filesIn = (folder: string): readonly string[] => namesIn(folder).filter((name) => !holdsControls(name));

/** One trouble for each file that is left out for its name. */
export const leftOutIn = (folders: readonly string[]): readonly FileTrouble[] =>
  folders
    .flatMap(namesIn)
    .flatMap((name) => (holdsControls(name) ? [{ file: name, ...START, sentence: BAD_NAME }] : []));

const BAD_NAME = 'this file is left out: its name holds characters that a terminal obeys or nobody sees; rename it.';

/** `stemOf('/home/me/routines/my-day.yml')` is 'my-day', the name under which a routine is known. */
export const stemOf = (path: string): string => basename(path).replace(/\.ya?ml$/, '');

/** The files of all folders; of two with the same name, whatever their endings, the earlier folder's counts. */
export function routineFiles(folders: readonly string[]): readonly string[] {
  const paths: string[] = [];
  for (const folder of folders) {
    const taken = new Set(paths.map(stemOf));
    paths.push(
      ...filesIn(folder)
        .filter((name) => !taken.has(stemOf(name)))
        .map((name) => join(folder, name)),
    );
  }
  return paths;
}

/** The file before this one in its folder whose name differs in its ending only; null without one. */
export function namesakeOf(path: string, paths: readonly string[]): string | null {
  const first = paths.find((other) => dirname(other) === dirname(path) && stemOf(other) === stemOf(path));
  return first === undefined || first === path ? null : first;
}

/** Whether a file came with the program. A folder beside the program's may begin with its whole name. */
export const isPackaged = (path: string): boolean => path.startsWith(packageRoot() + sep);

/** The player's own routines first, then the packaged ones for their instrument, for others like it, and the rest. */
export function orderedFor(loaded: LoadedRoutines, instrument: string): LoadedRoutines {
  const rank = ({ path, routine }: LoadedRoutine): number => {
    if (!isPackaged(path)) return 0;
    if (routine.instrument === instrument) return 1;
    return isForInstrument(routine, instrument) ? 2 : 3;
  };
  return { ...loaded, routines: loaded.routines.toSorted((a, b) => rank(a) - rank(b)) };
}

export interface FoundExercise {
  readonly exercise: Exercise;
  readonly routine: Routine;
}

/** Every exercise by what it is kept under; of one that several routines have, the earliest routine's. */
export function exercisesOf(loaded: LoadedRoutines): ReadonlyMap<string, FoundExercise> {
  const found = new Map<string, FoundExercise>();
  for (const { routine } of [...loaded.routines, ...loaded.collections]) {
    for (const exercise of routine.exercises)
      if (!found.has(exercise.id)) found.set(exercise.id, { exercise, routine });
  }
  return found;
}

/** By what it is kept under, or by its file and name. Throws Trouble that suggests the nearest. */
export function findExercise(loaded: LoadedRoutines, id: string): FoundExercise {
  const exercises = exercisesOf(loaded);
  const found = exercises.get(id) ?? [...exercises.values()].find(({ exercise }) => qualifiedName(exercise) === id);
  if (found !== undefined) return found;
  const hint = didYouMean(id, exercises.keys(), "'standside exercises' lists them.");
  throw new Trouble(`There is no exercise '${harmless(id, 40)}'; ${hint}`);
}

/** A routine by its id. @throws Trouble that suggests the nearest. */
export function findRoutine(loaded: LoadedRoutines, id: string): LoadedRoutine {
  const all = [...loaded.routines, ...loaded.collections];
  const found = all.find(({ routine }) => routine.id === id);
  if (found !== undefined) return found;
  const broken = loaded.troubles.find(({ file }) => stemOf(file) === id);
  if (broken !== undefined)
    throw new Trouble(`The routine '${harmless(id, 40)}' cannot be used: ${troubleLine(broken)}`);
  const ids = all.map(({ routine }) => routine.id);
  const hint = didYouMean(id, ids, `there are ${ids.join(', ')}.`);
  throw new Trouble(`There is no routine '${harmless(id, 40)}'; ${hint}`);
}
