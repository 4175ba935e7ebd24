import type { Fold } from '../../journal/journal-fold.ts';
import { badLinesSentence, readFold } from '../../journal/journal-store.ts';
import type { DataFolder } from '../../runtime/files/data-folder.ts';
import { remark } from '../output/print.ts';
import { orTrouble } from './or-trouble.ts';

/**
 * What the journal comes to, for commands that only print; lines that are no entries are named on stderr.
 * @throws Trouble when the journal cannot be read.
 */
export function journalSoFar(folder: DataFolder): Fold {
  const { fold, bad } = orTrouble(readFold(folder));
  const sentence = badLinesSentence(folder.journal, bad);
  if (sentence) remark(sentence);
  return fold;
}
