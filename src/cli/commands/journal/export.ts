import { toCsv } from '../../../journal/csv-export.ts';
import { readJournal } from '../../../journal/journal-file.ts';
import { orTrouble } from '../../files/or-trouble.ts';
import { type DataOption, dataFolderOf } from '../../options/data-option.ts';
import { printJson } from '../../output/print.ts';

export interface ExportOptions extends DataOption {
  readonly csv?: boolean;
}

export function exportJournal(options: ExportOptions): void {
  const { entries } = orTrouble(readJournal(dataFolderOf(options).journal));
  if (options.csv) process.stdout.write(toCsv(entries));
  else printJson(entries);
}
