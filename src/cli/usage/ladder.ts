import type { Command } from 'commander';
import type { LadderOptions } from '../commands/ladder/ladder-options.ts';

/** `standside ladder`: where a rule settles with a player. */
export function addLadderCommand(program: Command): void {
  program
    .command('ladder')
    .description('where a rule of the ladder settles, for a player described by a curve: exact, drawn, and by chance')
    .option('--up <n>', 'up after so many clean in a row', '3')
    .option('--down <n>', 'down after so many missed in a row', '1')
    .option('--tense-down <n>', 'down one rung after so many tense in a row, or never', '2')
    .option('--rungs-up <n>', 'how many rungs up', '1')
    .option('--rungs-down <n>', 'how many rungs down', '1')
    .option('--step <step>', 'between rungs: 3%, 2 (beats per minute), or marks', '3%')
    .option('--floor <bpm>', 'lowest rung', '40')
    .option('--top <bpm>', 'highest rung', '240')
    .option('--from <bpm>', 'expected repetitions from this rung')
    .option('--to <bpm>', 'to this one')
    .option('--threshold <bpm>', 'the player is clean half of the time here', '120')
    .option('--slope <s>', 'how suddenly it falls apart, 1 to 100', '12')
    .option('--lapse <share>', 'share of repetitions that fail at any tempo', '2%')
    .option('--tense <share>', 'share of tense among what is not clean, at the threshold', '30%')
    .option('--simulate <n>', 'also let a simulated player climb, so many repetitions a day')
    .option('--days <n>', 'for so many days', '20')
    .option('--seed <n>', 'the same seed gives the same player', '1')
    .option('--json', 'print JSON')
    .action(async (options: LadderOptions) => {
      const { ladder } = await import('../commands/ladder/ladder.ts');
      ladder(options);
    });
}
