/**
 * The routines as they were read last time, so that a start does not wait for the YAML and schema libraries.
 * The cache may be thrown away; it counts only while every file is as it was and the program is the same.
 */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { LowSync } from 'lowdb';
import { jsonFile } from '../../disk/json-file.ts';
import { checkSounds } from './missing-sounds.ts';
import { type LoadedRoutines, leftOutIn, routineFiles, routineFolders } from './routine-finder.ts';

interface Cached {
  readonly stamp: string;
  readonly loaded: LoadedRoutines;
}

function stampOf(path: string): string {
  const found = statSync(path, { throwIfNoEntry: false });
  return found === undefined ? `${path} -` : `${path} ${found.mtimeMs} ${found.size}`;
}

/** Changes with any routine file and with the program itself. */
const stampOfAll = (files: readonly string[]): string =>
  [fileURLToPath(import.meta.url), ...files].map(stampOf).join('\n');

const stampIn = (folders: readonly string[]): string =>
  [stampOfAll(routineFiles(folders)), ...leftOutIn(folders).map(({ file }) => file)].join('\n');

const documentAt = (path: string): LowSync<Partial<Cached> | null> =>
  new LowSync(jsonFile<Partial<Cached> | null>(path), null);

function readCached(path: string, stamp: string): LoadedRoutines | null {
  const document = documentAt(path);
  try {
    document.read();
  } catch {
    // Broken: read anew.
  }
  return document.data?.stamp === stamp ? (document.data.loaded ?? null) : null;
}

function writeCached(path: string, cached: Cached): void {
  const document = documentAt(path);
  document.data = cached;
  try {
    document.write();
  } catch {
    // A folder that is missing or full costs the next start its time and nothing else.
  }
}

/** Changes with any routine file that the player or the package has. */
export const routinesStamp = (dataFolder: string): string => stampIn(routineFolders(dataFolder));

/**
 * All routines of the player's own folder and the packaged one, from the cache where it still counts.
 * @throws Trouble when a folder is there and cannot be read.
 */
export async function routinesOf(dataFolder: string): Promise<LoadedRoutines> {
  const folders = routineFolders(dataFolder);
  const path = join(dataFolder, 'routines-read.json');
  const stamp = stampIn(folders);
  const cached = readCached(path, stamp);
  // Sounds are looked at each time: a WAV file may come or go without the routine's changing.
  if (cached !== null) return checkSounds(cached);
  const [{ loadRoutines }, { withLastSound }] = await Promise.all([
    import('./routine-reader.ts'),
    import('../own/last-sound.ts'),
  ]);
  const loaded = loadRoutines(folders, withLastSound(join(dataFolder, 'routines'), join(dataFolder, 'last-sound')));
  writeCached(path, { stamp, loaded });
  return checkSounds(loaded);
}
