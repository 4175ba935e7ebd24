/** Where the player's files live: the platform's data folder, or the one that was asked for. */
import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import envPaths from 'env-paths';
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

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'you may not read and write there',
  EPERM: 'you may not read and write there',
  EROFS: 'it is on a disk that cannot be written to',
  ENOSPC: 'the disk is full',
  ENOTDIR: 'there is a file in its way',
  EEXIST: 'there is a file of that name',
  ENOENT: 'its path leads nowhere',
  ENAMETOOLONG: 'its name is too long',
  ELOOP: 'its links go in a circle',
};

/** The plain reason behind a file system error. */
export function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException | null)?.code ?? '';
  return REASONS[code] ?? (code || String(error));
}

/** Level by level: Node 20's own recursive way never ends below a folder such as /proc. */
function makeFolder(path: string): void {
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
      `The data folder ${path} cannot be used: ${reasonOf(error)}. Name another with --data DIR or STANDSIDE_DATA.`,
    );
  }
  return dataFolderAt(path);
}
