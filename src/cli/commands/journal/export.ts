import { toCsv } from '../../../journal/csv-export.ts';
import { readJournal } from '../../../journal/journal-file.ts';
import { speedUnknownIn } from '../../../plan/routine/exercise.ts';
import { exercisesThere } from '../../files/exercises-there.ts';
import { orTrouble } from '../../files/or-trouble.ts';
import type { DataFolder } from '../../../runtime/files/data-folder.ts';
import { type DataOption, dataFolderOf } from '../../options/data-option.ts';
import { printJson } from '../../output/print.ts';

export interface ExportOptions extends DataOption {
  readonly csv?: boolean;
}

/** Marks are given out whatever the routine files are like. */
const readable = (folder: DataFolder): ReturnType<typeof exercisesThere> =>
  exercisesThere(folder).catch(() => new Map());

export async function exportJournal(options: ExportOptions): Promise<void> {
  const folder = dataFolderOf(options);
  const { entries } = orTrouble(readJournal(folder.journal));
  if (options.csv) process.stdout.write(toCsv(entries, speedUnknownIn(await readable(folder))));
  else printJson(entries);
}
