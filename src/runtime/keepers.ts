/** How what happens reaches the disk: entries of the journal, levels. */
import type { PlayedLine } from '../ladder/speed/speed-knowledge.ts';
import type { Fold } from '../journal/journal-fold.ts';
import type { Keep } from './desk.ts';
import { isMishap } from '../common/mishap.ts';
import type { PlayerData } from './files/player-data.ts';
import { type KeptSettings, keepSettings } from './files/settings-writer.ts';

/** Every line the journal knows, by its name. */
export const knownLines = ({ lines }: Fold): Readonly<Record<string, PlayedLine>> => Object.fromEntries(lines);

/** Stamps what happened, puts it on the disk and says what is then known of its line. */
export const keeper =
  ({ stamp, store, log }: PlayerData): Keep =>
  (happening) => {
    const entry = stamp(happening);
    const appended = store.append(entry);
    if (isMishap(appended)) return { sentence: appended.sentence };
    const { line, notice } = appended;
    if (notice !== undefined) log.write('journal', notice);
    return { entry, line: line === null ? null : { name: line, history: store.fold().lines.get(line) ?? null } };
  };

/** Levels on their way to the settings file. */
export interface VolumeKeeper {
  readonly keep: (volume: KeptSettings['volume']) => void;
  /** What still waits is written now: a level that was shown is kept. */
  readonly finish: () => Promise<void>;
}

/** Turning a dial is many small steps: only the last one is written. */
export function volumeKeeper({ folder, log }: PlayerData): VolumeKeeper {
  let timer: NodeJS.Timeout | undefined;
  let waiting: KeptSettings['volume'] | null = null;
  /** One after the other: the last level is the one that stays. */
  let writing: Promise<void> = Promise.resolve();
  const write = async (): Promise<void> => {
    const volume = waiting;
    waiting = null;
    const trouble = volume && (await keepSettings(folder.path, { volume }));
    if (trouble) log.write('settings', trouble);
  };
  const finish = (): Promise<void> => {
    clearTimeout(timer);
    writing = writing.then(write);
    return writing;
  };
  const keep = (volume: KeptSettings['volume']): void => {
    clearTimeout(timer);
    waiting = volume;
    timer = setTimeout(() => void finish(), 300);
  };
  return { keep, finish };
}
