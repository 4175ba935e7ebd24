import type { Fold } from '../../journal/journal-fold.ts';
import { badLinesSentence, readFold } from '../../journal/journal-store.ts';
import { stampOf, systemClock } from '../../runtime/clock.ts';
import { readingProgress } from '../../runtime/screen/reading-progress.ts';
import type { DataFolder } from '../../runtime/files/data-folder.ts';
import { remark } from '../output/print.ts';
import { orTrouble } from './or-trouble.ts';

/**
 * What the journal comes to, for commands that only print; lines that are no entries are named on stderr.
 * @throws Trouble when the journal cannot be read.
 */
export function journalSoFar(folder: DataFolder): Fold {
  const { day: today } = stampOf(systemClock);
  const { fold, bad } = orTrouble(
    readFold(folder, { today, progress: readingProgress(process.stderr, () => performance.now()) }),
  );
  const sentence = badLinesSentence(folder.journal, bad);
  if (sentence) remark(sentence);
  return fold;
}
