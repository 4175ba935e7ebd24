/** A data folder for looking around in: filled with an invented half-year, gone when the program ends. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { reasonOf } from '../../common/file-reasons.ts';
import { Trouble } from '../../common/trouble.ts';
import { type Clock, stampOf } from '../clock.ts';
import { dataFolderAt } from '../files/data-folder.ts';
import { routinesOf } from '../files/routine-cache.ts';
import { findRoutine } from '../files/routine-finder.ts';
import { halfYear } from './half-year.ts';

/** The packaged routine that the invented player goes by. */
const ROUTINE = 'cornet-daily';

function newFolder(): string {
  try {
    return mkdtempSync(join(tmpdir(), 'standside-demo-'));
  } catch (error) {
    throw new Trouble(`The demo has no room in ${tmpdir()}: ${reasonOf(error, 'write')}. TMPDIR names another folder.`);
  }
}

const remove = (path: string): void => rmSync(path, { recursive: true, force: true });

/** Makes the folder and fills it; nothing of the player's is read or written. Gone with the process. */
export async function openDemoFolder(clock: Clock, seed: number): Promise<string> {
  const path = newFolder();
  process.once('exit', () => remove(path));
  const { routine } = findRoutine(await routinesOf(path), ROUTINE);
  const { day } = stampOf(clock);
  const entries = halfYear({ routine, today: day, offset: clock.offsetAt(clock.wall()), seed });
  try {
    writeFileSync(dataFolderAt(path).journal, entries.map((entry) => `${JSON.stringify(entry)}\n`).join(''));
  } catch (error) {
    throw new Trouble(`The demo cannot be written in ${path}: ${reasonOf(error, 'write')}.`);
  }
  return path;
}
