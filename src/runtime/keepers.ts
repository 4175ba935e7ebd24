/** How what happens reaches the disk: entries of the journal, levels. */
import type { PlayedLine } from '../ladder/speed/speed-knowledge.ts';
import type { Fold } from '../journal/journal-fold.ts';
import type { Keep } from './desk.ts';
import { isMishap } from '../common/mishap.ts';
import type { PlayerData } from './files/player-data.ts';

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
