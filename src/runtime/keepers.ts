/** How what happens reaches the disk: marks, records of the day, levels. */

import type { Happening, DayEntry, UndoEntry } from '../diary/entry.ts';
import type { Keep, KeepRecord } from './desk.ts';
import { type KeptSettings, keepSettings } from './files/settings-writer.ts';
import { happeningOf, keptLine } from './known-lines.ts';
import type { PlayerData } from './files/player-data.ts';

export const keeper =
  ({ stamp, store }: PlayerData): Keep =>
  (draft) => {
    const entry = stamp(happeningOf(draft));
    const mishap = store.append(entry);
    if (mishap) return { sentence: mishap.sentence };
    return { id: entry.id, line: keptLine(draft.line, store.fold()) };
  };

export const recorder =
  ({ stamp, store }: PlayerData): KeepRecord =>
  (record) => {
    const entry = stamp(record as Happening);
    const mishap = store.append(entry);
    return mishap ? { sentence: mishap.sentence } : { record: entry as DayEntry | UndoEntry };
  };

/** Turning a dial is many small steps: only the last one is written. */
export function volumeKeeper({ folder, log }: PlayerData): (volume: KeptSettings['volume']) => void {
  let timer: NodeJS.Timeout | undefined;
  return (volume) => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      void keepSettings(folder.path, { volume }).then((trouble) => trouble && log.write('settings', trouble));
    }, 300);
  };
}
