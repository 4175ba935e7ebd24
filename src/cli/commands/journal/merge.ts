import { printText } from '../../output/print.ts';
import { harmless } from '../../../common/harmless-text.ts';
import { Trouble } from '../../../common/trouble.ts';
import { readText } from '../../../journal/journal-disk.ts';
import { openJournal } from '../../../journal/journal-file.ts';
import { type Taken, missingFrom } from '../../../journal/journal-merge.ts';
import { systemClock } from '../../../runtime/clock.ts';
import { openDataFolder } from '../../../runtime/files/data-folder.ts';
import { takeLock } from '../../../runtime/files/folder-lock.ts';
import { orTrouble } from '../../files/or-trouble.ts';
import { type DataOption, dataFolderOf } from '../../options/data-option.ts';
import { plural } from '../../output/plural.ts';

const shown = (path: string): string => harmless(path, 200);

/** What another journal has that ours lacks. @throws Trouble when it is no journal. */
function missingFromOurs(ours: string, path: string): Taken {
  const other = orTrouble(readText(path));
  if (other === null) throw new Trouble(`There is no journal at ${shown(path)}.`);
  const missing = missingFrom(orTrouble(readText(ours)) ?? '', other, systemClock.wall());
  if (missing.left.length > 0 && missing.lines.length + missing.known + missing.ahead.length === 0)
    throw new Trouble(`${shown(path)} is not a journal of standside: no line of it is an entry.`);
  return missing;
}

const leftThere = (numbers: readonly number[], why: string): string =>
  numbers.length === 0
    ? ''
    : `; ${plural(numbers.length, 'line')} left there, ${why}: ${numbers.slice(0, 10).join(', ')}`;

function summary(path: string, { lines, known, left, ahead }: Taken): string {
  const leftOut = leftThere(left, 'being no entries') + leftThere(ahead, 'days ahead of the clock here');
  return `${shown(path)}: took in ${plural(lines.length, 'entry', 'entries')}, ${known} were here already${leftOut}\n`;
}

function mergeOne(ours: string, path: string): void {
  const journal = orTrouble(openJournal(ours));
  try {
    const missing = missingFromOurs(ours, path);
    orTrouble(missing.lines.length === 0 ? null : journal.appendLines(missing.lines));
    printText(summary(path, missing));
  } finally {
    journal.close();
  }
}

/** Each file by itself: those before one that is no journal are taken in. */
export function mergeJournals(paths: readonly string[], options: DataOption): void {
  const folder = openDataFolder(dataFolderOf(options).path);
  const lock = takeLock(folder.lock);
  try {
    for (const path of paths) mergeOne(folder.journal, path);
  } finally {
    lock.release();
  }
}
