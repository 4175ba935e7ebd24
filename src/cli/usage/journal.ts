import type { Command } from 'commander';
import type { CheckOptions } from '../commands/journal/check.ts';
import type { ExportOptions } from '../commands/journal/export.ts';
import type { DataOption } from '../options/data-option.ts';

function addCheck(journal: Command): void {
  journal
    .command('check')
    .description('read every line and say what was found; changes nothing')
    .option('--json', 'print JSON')
    .action(async (_: unknown, command: Command) => {
      const { checkJournal } = await import('../commands/journal/check.ts');
      checkJournal(command.optsWithGlobals<CheckOptions>());
    });
}

function addExport(journal: Command): void {
  journal
    .command('export')
    .description('print every entry as JSON, or the marks that count as a table')
    .option('--json', 'print JSON (this is the default)')
    .option('--csv', 'print comma-separated values, one mark a row, without those taken back')
    .action(async (_: unknown, command: Command) => {
      const { exportJournal } = await import('../commands/journal/export.ts');
      await exportJournal(command.optsWithGlobals<ExportOptions>());
    });
}

function addMerge(journal: Command): void {
  journal
    .command('merge')
    .description('take in what journals of other machines hold; those files stay as they are')
    .argument('<file...>', 'journal files, such as a copy of the other machine’s journal.jsonl')
    .action(async (files: readonly string[], _: unknown, command: Command) => {
      const { mergeJournals } = await import('../commands/journal/merge.ts');
      mergeJournals(files, command.optsWithGlobals<DataOption>());
    });
}

function addSchema(journal: Command): void {
  journal
    .command('schema')
    .description('print the JSON Schema of one line of the journal')
    .action(async () => {
      const { printSchema } = await import('../commands/journal/schema.ts');
      printSchema();
    });
}

/** `standside journal`: look through it, take it elsewhere, bring two together. */
export function addJournalCommand(program: Command): void {
  const journal = program
    .command('journal')
    .description('the file that keeps every mark: check it, export it, merge another into it');
  addCheck(journal);
  addExport(journal);
  addMerge(journal);
  addSchema(journal);
}
