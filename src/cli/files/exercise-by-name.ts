import type { DataFolder } from '../../runtime/files/data-folder.ts';
import { routinesOf } from '../../runtime/files/routine-cache.ts';
import { type FoundExercise, findExercise } from '../../runtime/files/routine-finder.ts';

/** @throws Trouble that suggests the nearest name. */
export const exerciseNamed = async (folder: DataFolder, name: string): Promise<FoundExercise> =>
  findExercise(await routinesOf(folder.path), name);
