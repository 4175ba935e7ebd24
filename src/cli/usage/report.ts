import type { Command } from 'commander';
import type { ReportOptions } from '../commands/report.ts';

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
