/** What the commands that only print know of the player's data. */
import type { Command } from 'commander';
import type { Fold } from '../journal/journal-fold.ts';
import type { DataFolder } from '../runtime/files/data-folder.ts';

/** The data folder that the command line means; it is neither made nor locked. */
export async function askedFolder(command: Command): Promise<DataFolder> {
  const { dataFolderAt, whereData } = await import('../runtime/files/data-folder.ts');
  return dataFolderAt(whereData(command.optsWithGlobals<{ data?: string }>().data));
}

/**
 * All that the journal says; lines that are no entries are named on stderr.
 * @throws Trouble when the journal cannot be read.
 */
export async function savedFold(command: Command): Promise<Fold> {
  const { badLinesSentence, readFold } = await import('../journal/journal-store.ts');
  const { isMishap } = await import('../common/mishap.ts');
  const { Trouble } = await import('../common/trouble.ts');
  const folder = await askedFolder(command);
  const read = readFold(folder);
  if (isMishap(read)) throw new Trouble(read.sentence);
  const sentence = badLinesSentence(folder.journal, read.bad);
  if (sentence) process.stderr.write(`standside: ${sentence}\n`);
  return read.fold;
}

export const printJson = (value: unknown): void => void process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
