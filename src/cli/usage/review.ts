import type { Command } from 'commander';
import type { ReviewOptions } from '../commands/review.ts';

/** `standside review`: the weeks, and what was covered. */
export function addReviewCommand(program: Command): void {
  program
    .command('review')
    .description(
      'print the weeks: share of clean repetitions, how the lines went, which keys and articulations were covered',
    )
    .option('--weeks <n>', 'how many weeks back', '12')
    .option('--exercise <id>', 'show the coverage of this exercise only')
    .option('--json', 'print JSON')
    .action(async (_: unknown, command: Command) => {
      const { review } = await import('../commands/review.ts');
      await review(command.optsWithGlobals<ReviewOptions>());
    });
}
