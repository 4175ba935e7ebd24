/** Small routine files for tests. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { LoadedRoutine } from '../../src/runtime/files/routine-finder.ts';
import { readRoutineFile } from '../../src/runtime/files/routine-reader.ts';

/** A file and, if need be, its folder. */
export function put(path: string, text: string): string {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
  return path;
}

/** A day of one exercise, called after its routine unless it is named. */
export const dayText = (title: string, exercise = title.toLowerCase(), more = ''): string =>
  `routine: ${title}\n${more}exercises: {${exercise}: {title: From ${title}}}\n` +
  `parts: [{part: A, blocks: [${exercise}: 5]}]\n`;

export function loadedFrom(path: string): LoadedRoutine {
  const read = readRoutineFile(path);
  if ('troubles' in read) throw new Error(read.troubles[0]?.sentence);
  return { path, routine: read.routine };
}
