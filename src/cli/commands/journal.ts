import type { Command } from 'commander';
import type { Mishap } from '../../common/mishap.ts';
import type { JournalReport } from '../../journal/journal-health.ts';
import { askedFolder, printJson } from '../saved-data.ts';

async function orTrouble<T>(value: T | Mishap): Promise<T> {
  const { isMishap } = await import('../../common/mishap.ts');
  const { Trouble } = await import('../../common/trouble.ts');
  if (isMishap(value)) throw new Trouble(value.sentence);
  return value;
}

async function readAll(path: string) {
  const { readJournal } = await import('../../journal/journal-file.ts');
  return orTrouble(readJournal(path));
}

const plural = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

function reportLines(path: string, report: JournalReport): readonly string[] {
  const { entries, newer, kinds, firstDay, lastDay, bad, torn, undosOfNothing } = report;
  const sorts = Object.entries(kinds).map(([kind, count]) => `${count} ${kind}`);
  return [
    path,
    entries === 0
      ? 'no entries yet'
      : `${plural(entries, 'entry', 'entries')} from ${firstDay} to ${lastDay}: ${sorts.join(', ')}`,
    ...(newer ? [`${plural(newer, 'entry', 'entries')} of a newer standside: kept, not understood`] : []),
    ...(undosOfNothing ? [`${plural(undosOfNothing, 'undo')} of something that is not in this journal`] : []),
    ...bad.map(({ line, reason }) => `line ${line} is no entry: ${reason}`),
    ...(torn ? ['the last line was cut off; the next start sets it aside'] : []),
    bad.length === 0 && !torn ? 'every line is whole' : 'every other line is whole, and nothing was changed',
  ];
}

async function check({ json }: { json?: boolean }, command: Command): Promise<void> {
  const { reportOn } = await import('../../journal/journal-health.ts');
  const { journal } = await askedFolder(command);
  const report = reportOn(await readAll(journal));
  if (json) printJson({ journal, ...report });
  else process.stdout.write(`${reportLines(journal, report).join('\n')}\n`);
  process.exitCode = report.bad.length > 0 || report.torn ? 1 : 0;
}

async function exportAll({ csv }: { csv?: boolean }, command: Command): Promise<void> {
  const { entries } = await readAll((await askedFolder(command)).journal);
  const { toCsv } = await import('../../journal/csv-export.ts');
  if (csv) process.stdout.write(toCsv(entries));
  else printJson(entries);
}

/** What another journal has that ours lacks; throws Trouble when it is no journal. */
async function missing(ours: string, path: string) {
  const { readText } = await import('../../journal/journal-file.ts');
  const { missingFrom } = await import('../../journal/journal-merge.ts');
  const { Trouble } = await import('../../common/trouble.ts');
  const other = await orTrouble(readText(path));
  if (other === null) throw new Trouble(`There is no journal at ${path}.`);
  const taken = missingFrom((await orTrouble(readText(ours))) ?? '', other);
  if (taken.left.length > 0 && taken.lines.length + taken.known === 0) {
    throw new Trouble(`${path} is not a journal of standside: no line of it is an entry.`);
  }
  return taken;
}

async function mergeOne(ours: string, path: string): Promise<void> {
  const { openJournal } = await import('../../journal/journal-file.ts');
  const journal = await orTrouble(openJournal(ours));
  const { lines, known, left } = await missing(ours, path);
  try {
    await orTrouble(lines.length === 0 ? null : journal.appendLines(lines));
  } finally {
    journal.close();
  }
  const leftOut =
    left.length > 0
      ? `; ${plural(left.length, 'line')} left there, being no entries: ${left.slice(0, 10).join(', ')}`
      : '';
  process.stdout.write(
    `${path}: took in ${plural(lines.length, 'entry', 'entries')}, ${known} were here already${leftOut}\n`,
  );
}

async function merge(paths: readonly string[], _: unknown, command: Command): Promise<void> {
  const { openDataFolder } = await import('../../runtime/files/data-folder.ts');
  const { takeLock } = await import('../../runtime/files/folder-lock.ts');
  const folder = openDataFolder((await askedFolder(command)).path);
  const lock = takeLock(folder.lock);
  try {
    for (const path of paths) await mergeOne(folder.journal, path);
  } finally {
    lock.release();
  }
}

async function schema(): Promise<void> {
  const { journalSchema } = await import('../../journal/entry-schema.ts');
  printJson(journalSchema());
}

/** `standside journal`: look through it, take it elsewhere, bring two together. */
export function addJournalCommand(program: Command): void {
  const journal = program
    .command('journal')
    .description('the file that keeps every mark: check it, export it, merge another into it');
  journal
    .command('check')
    .description('read every line and say what was found; changes nothing')
    .option('--json', 'print JSON')
    .action(check);
  journal
    .command('export')
    .description('print every entry as JSON, or the marks that count as a table')
    .option('--json', 'print JSON (this is the default)')
    .option('--csv', 'print comma-separated values, one mark a row, without those taken back')
    .action(exportAll);
  journal
    .command('merge')
    .description('take in what journals of other machines hold; those files stay as they are')
    .argument('<file...>', 'journal files, such as a copy of the other machine’s journal.jsonl')
    .action(merge);
  journal.command('schema').description('print the JSON Schema of one line of the journal').action(schema);
}
