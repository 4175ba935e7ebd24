/** Where the player's files live: the platform's data folder, or the one that was asked for. */
import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import envPaths from 'env-paths';
import { reasonOf } from '../../common/file-reasons.ts';
import { Trouble } from '../../common/trouble.ts';

export interface DataFolder {
  readonly path: string;
  readonly journal: string;
  readonly cache: string;
  readonly lock: string;
  readonly log: string;
  /** The player's own routine files. */
  readonly routines: string;
}

/** The files of a data folder; nothing is touched. */
export const dataFolderAt = (path: string): DataFolder => ({
  path,
  journal: join(path, 'journal.jsonl'),
  cache: join(path, 'cache.json'),
  lock: join(path, 'standside.lock'),
  log: join(path, 'standside.log'),
  routines: join(path, 'routines'),
});

/** `--data DIR`, else STANDSIDE_DATA, else the platform's own place for data. */
export function whereData(option?: string, env: NodeJS.ProcessEnv = process.env): string {
  const asked = option || env['STANDSIDE_DATA'];
  return asked ? resolve(asked) : envPaths('standside', { suffix: '' }).data;
}

/**
 * Makes a folder and those above it, for the player alone. Level by level: Node 20's own way never ends below a
 * folder such as /proc.
 */
export function makeFolder(path: string): void {
  if (existsSync(path)) return;
  makeFolder(dirname(path));
  mkdirSync(path, { mode: 0o700 });
}

/**
 * Makes the folder if it is missing and sees that it can be read and written.
 * @throws Trouble when it cannot.
 */
export function openDataFolder(option?: string, env: NodeJS.ProcessEnv = process.env): DataFolder {
  const path = whereData(option, env);
  try {
    makeFolder(path);
    accessSync(path, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    throw new Trouble(
      `The data folder ${path} cannot be used: ${reasonOf(error, 'write')}. ` +
        `Name another with --data DIR or STANDSIDE_DATA.`,
    );
  }
  return dataFolderAt(path);
}
