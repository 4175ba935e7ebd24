/** Everything of the player's that the program keeps, opened together and given back together. */
import type { Entry, Happening } from '../../diary/entry.ts';
import { entryIds } from '../../journal/entry-ids.ts';
import type { Progress } from '../../journal/journal-pieces.ts';
import { isMishap } from '../../common/mishap.ts';
import { type Store, openStore } from '../../journal/journal-store.ts';
import { type Clock, DAY_START, stampOf, systemClock } from '../clock.ts';
import { type DataFolder, openDataFolder } from './data-folder.ts';
import { takeLock } from './folder-lock.ts';
import { type Log, openLog } from './log-file.ts';
import { Trouble } from '../../common/trouble.ts';

export interface PlayerData {
  readonly folder: DataFolder;
  readonly store: Store;
  readonly log: Log;
  /** Gives a happening its id, moment and day. */
  readonly stamp: (happening: Happening) => Entry;
  /** Writes the cache, closes the journal, gives the folder free; safe to call twice. */
  readonly close: () => void;
}

/**
 * Opens the player's data for one sitting and holds its lock.
 * @param option the value of `--data`
 * @param dayStart minutes after midnight at which the player's day starts
 * @param progress told while a journal without a cache is read
 * @throws Trouble when the folder or the journal cannot be used, or another standside holds them.
 */
export function openPlayerData(
  option?: string,
  clock: Clock = systemClock,
  dayStart = (): number => DAY_START,
  progress?: Progress,
): PlayerData {
  const folder = openDataFolder(option);
  const lock = takeLock(folder.lock);
  const store = openStore(folder, { today: stampOf(clock, dayStart()).day, ...(progress ? { progress } : {}) });
  if (isMishap(store)) {
    lock.release();
    throw new Trouble(store.sentence);
  }
  const nextId = entryIds(store.fold().lastId, clock.wall);
  const stamp = (happening: Happening): Entry =>
    ({ v: 1, id: nextId(), ...stampOf(clock, dayStart()), ...happening }) as Entry;
  let open = true;
  const close = (): void => {
    if (open) store.close();
    open = false;
    lock.release();
  };
  return { folder, store, log: openLog(folder.log, clock), stamp, close };
}
