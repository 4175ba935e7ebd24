import { join } from 'node:path';
import { harmless } from '../../common/harmless-text.ts';
import { reasonOf } from '../../common/file-reasons.ts';
import { Trouble } from '../../common/trouble.ts';
import { createFile, replaceFile } from '../../disk/whole-file.ts';
import { makeFolder } from './data-folder.ts';
import { stemOf } from './routine-finder.ts';

/**
 * Writes a new routine file and returns its path. A bare name goes into `folder`, which is made if need be.
 * @throws Trouble when the file is there already and `force` is not set, or it cannot be written.
 */
export function writeNewRoutine(
  name: string,
  folder: string | null,
  text: (stem: string) => string,
  force: boolean,
): string {
  const stem = stemOf(name);
  if (!/^[a-zA-Z0-9][\w -]*$/.test(stem))
    throw new Trouble(`'${harmless(name)}' cannot name a routine; use letters, digits, hyphens and spaces.`);
  if (folder === null && !/\.ya?ml$/.test(name))
    throw new Trouble(`${harmless(name)} would not be found as a routine; end the name with .yaml.`);
  const path = folder === null ? name : join(folder, `${stem}.yaml`);
  try {
    if (folder !== null) makeFolder(folder);
    if (force) replaceFile(path, text(stem));
    else createFile(path, text(stem));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST')
      throw new Trouble(`${harmless(path, 200)} is there already; write over it with --force.`);
    throw new Trouble(`${harmless(path, 200)} cannot be written: ${reasonOf(error, 'write')}.`);
  }
  return path;
}
