import { readJournal } from '../../../journal/journal-file.ts';
import { type JournalReport, reportOn } from '../../../journal/journal-health.ts';
import { orTrouble } from '../../files/or-trouble.ts';
import { type DataOption, dataFolderOf } from '../../options/data-option.ts';
import { plural } from '../../output/plural.ts';
import { printJson, printLines } from '../../output/print.ts';

export interface CheckOptions extends DataOption {
  readonly json?: boolean;
}

function contentsLine({ entries, kinds, firstDay, lastDay }: JournalReport): string {
  if (entries === 0) return 'no entries yet';
  const sorts = Object.entries(kinds).map(([kind, count]) => `${count} ${kind}`);
  return `${plural(entries, 'entry', 'entries')} from ${firstDay} to ${lastDay}: ${sorts.join(', ')}`;
}

function linesOf(path: string, report: JournalReport): readonly string[] {
  const { newer, bad, torn, undosOfNothing } = report;
  return [
    path,
    contentsLine(report),
    ...(newer ? [`${plural(newer, 'entry', 'entries')} of a newer standside: kept, not understood`] : []),
    ...(undosOfNothing ? [`${plural(undosOfNothing, 'undo')} of something that is not in this journal`] : []),
    ...bad.map(({ line, reason }) => `line ${line} is no entry: ${reason}`),
    ...(torn ? ['the last line was cut off; the next start sets it aside'] : []),
    bad.length === 0 && !torn ? 'every line is whole' : 'every other line is whole, and nothing was changed',
  ];
}

/** Exit code 1 where a line is broken. */
export function checkJournal(options: CheckOptions): void {
  const { journal } = dataFolderOf(options);
  const report = reportOn(orTrouble(readJournal(journal)));
  if (options.json) printJson({ journal, ...report });
  else printLines(linesOf(journal, report));
  process.exitCode = report.bad.length > 0 || report.torn ? 1 : 0;
}
