/** A routine as the command line names it: a file, or a name among the player's own and the packaged ones. */
import { complain } from '../output/print.ts';
import { Trouble } from '../../common/trouble.ts';
import { type FileTrouble, troubleLine } from '../../plan/file/place-in-file.ts';
import type { Routine } from '../../plan/routine/routine.ts';
import type { DataFolder } from '../../runtime/files/data-folder.ts';
import { routinesOf } from '../../runtime/files/routine-cache.ts';
import { findRoutine } from '../../runtime/files/routine-finder.ts';
import { isFileName } from './routine-file-name.ts';

const MOST_TROUBLES = 50;

/** @throws Trouble after saying everything that is wrong with the file. */
function refuse(troubles: readonly FileTrouble[]): never {
  const [first, ...others] = troubles;
  for (const trouble of others.slice(0, MOST_TROUBLES)) complain(troubleLine(trouble));
  throw new Trouble(first === undefined ? 'The routine cannot be used.' : troubleLine(first));
}

/** The YAML and schema libraries are loaded here: a name is in the cache, and without them is shown in two thirds. */
async function routineInFile(path: string): Promise<Routine> {
  const { readRoutineFile } = await import('../../runtime/files/routine-reader.ts');
  const parsed = readRoutineFile(path);
  return 'routine' in parsed ? parsed.routine : refuse(parsed.troubles);
}

/** @throws Trouble where there is none, or its file cannot be used. */
export async function routineNamed(folder: DataFolder, name: string): Promise<Routine> {
  if (isFileName(name)) return routineInFile(name);
  return findRoutine(await routinesOf(folder.path), name).routine;
}
