import { bpmText } from '../../music/time/tempo-text.ts';
import type { Command } from 'commander';
import type { BestRow } from '../../review/bests.ts';
import { printJson, savedFold } from '../saved-data.ts';
import { table } from '../table.ts';

const COLUMNS = [
  { head: 'exercise' },
  { head: 'articulation' },
  { head: 'key' },
  { head: 'best', right: true },
  { head: 'beat' },
  { head: 'notes/s', right: true },
  { head: 'held on' },
  { head: 'goes on at', right: true },
];

const cells = ({ exercise, articulation, key, bpm, beat, notesPerSecond, day, next }: BestRow): readonly string[] => [
  exercise,
  articulation,
  key,
  bpm === null ? '–' : bpmText(bpm),
  beat,
  notesPerSecond === null ? '–' : notesPerSecond.toFixed(1),
  day ?? '–',
  bpmText(next),
];

const NONE = 'No line was marked yet. A best is a rung that was held: clean several times in a row.\n';

/** `standside bests`: the highest tempo that each line has held. */
export function addBestsCommand(program: Command): void {
  program
    .command('bests')
    .description('print the best of every line: beats per minute, notes per second, and the day it was held')
    .option('--json', 'print JSON')
    .action(async ({ json }: { json?: boolean }, command: Command) => {
      const { bestsOf } = await import('../../review/bests.ts');
      const bests = bestsOf(await savedFold(command));
      if (json) printJson(bests);
      else process.stdout.write(bests.length === 0 ? NONE : table(COLUMNS, bests.map(cells)));
    });
}
