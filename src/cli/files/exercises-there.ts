import type { Exercise } from '../../plan/routine/exercise.ts';
import { routinesOf } from '../../runtime/files/routine-cache.ts';
import { exercisesOf } from '../../runtime/files/routine-finder.ts';
import type { DataFolder } from '../../runtime/files/data-folder.ts';

/** Every exercise there is, by what it is kept under. @throws Trouble when a folder cannot be read. */
export async function exercisesThere(folder: DataFolder): Promise<ReadonlyMap<string, Exercise>> {
  const found = exercisesOf(await routinesOf(folder.path));
  return new Map([...found].map(([name, { exercise }]) => [name, exercise]));
}
