import type { Command } from 'commander';
import type { ReportOptions } from '../commands/report.ts';
import type { StudentsOptions } from '../commands/students.ts';
import type { WeeksOptions } from '../commands/weeks.ts';

/** `standside weeks`: the weeks, and what was covered. */
export function addWeeksCommand(program: Command): void {
  program
    .command('weeks')
    .description(
      'print the weeks: share of clean repetitions, how the lines went, which keys and articulations were covered',
    )
    .option('--weeks <n>', 'how many weeks back', '12')
    .option('--exercise <id>', 'show the coverage of this exercise only')
    .option('--json', 'print JSON')
    .action(async (_: unknown, command: Command) => {
      const { weeks } = await import('../commands/weeks.ts');
      await weeks(command.optsWithGlobals<WeeksOptions>());
    });
}

/** `standside report`: one page for a teacher, a student, a doctor's visit. */
export function addReportCommand(program: Command): void {
  program
    .command('report')
    .description(
      'write a page about the practice of some weeks: minutes, lines, targets; it needs nothing else to be read',
    )
    .option('--from <day>', 'first day, YYYY-MM-DD (default: twelve weeks before the last)')
    .option('--to <day>', 'last day, YYYY-MM-DD (default: today)')
    .option('--for <routine>', 'answer this routine point by point, such as a teacher’s FILE.yaml')
    .option('--with-notes', 'with the notes you wrote, which are private otherwise')
    .option('--with-tension', 'with the tension you entered, which is private otherwise')
    .option('--out <file>', 'where to: FILE.html')
    .option('--force', 'replace a file that is already there')
    .action(async (_: unknown, command: Command) => {
      const { report } = await import('../commands/report.ts');
      await report(command.optsWithGlobals<ReportOptions>());
    });
}

/** `standside students FOLDER`: who of many needs what. */
export function addStudentsCommand(program: Command): void {
  program
    .command('students')
    .description('read the journals and reports of many students and say who needs what')
    .argument('<folder>', 'where they are: NAME.jsonl, NAME.html (a report), or NAME/journal.jsonl')
    .option('--weeks <n>', 'how many weeks of each journal to look at', '4')
    .option('--for <routine>', 'the routine that they were given, for its titles and targets')
    .option('--json', 'print JSON')
    .option('--out <file>', 'write a page too: FILE.html')
    .option('--force', 'replace a file that is already there')
    .action(async (folder: string, _: unknown, command: Command) => {
      const { students } = await import('../commands/students.ts');
      await students(folder, command.optsWithGlobals<StudentsOptions>());
    });
}
