/** The file that a copied exercise is written in, as its text says it. */
import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parseRoutine } from '../../plan/file/routine-file.ts';
import type { Copied } from '../../plan/own/own-file.ts';
import type { OwnPlace } from '../../practice/screens/own-asked.ts';
import { includeFrom, packagedRoutines } from '../files/routine-reader.ts';

function exerciseAt(path: string, { file, name }: OwnPlace, folder: string): Copied | null {
  try {
    const text = readFileSync(path, 'utf8');
    const read = parseRoutine(text, basename(path), includeFrom(folder));
    const exercise = 'routine' in read && read.routine.exercises.find((one) => one.name === name && one.file === file);
    return exercise ? { text, exercise } : null;
  } catch {
    return null;
  }
}

/**
 * The player's own file of that name, the last sound version of it, or the packaged one, whichever can be read first
 * and has the exercise; null where none has it any more.
 */
export function copiedFrom(place: OwnPlace, dataFolder: string): Copied | null {
  const own = join(dataFolder, 'routines');
  for (const folder of [own, join(dataFolder, 'last-sound'), packagedRoutines()])
    for (const ending of ['.yaml', '.yml']) {
      const found = exerciseAt(join(folder, `${place.file}${ending}`), place, own);
      if (found) return found;
    }
  return null;
}
