import { bpmText } from '../../music/time/tempo-text.ts';
import { type BestRow, bestsOf } from '../../review/bests.ts';
import { journalSoFar } from '../files/journal-so-far.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { printJson } from '../output/print.ts';
import { textTable } from '../output/text-table.ts';

export interface BestsOptions extends DataOption {
  readonly json?: boolean;
}

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

export function bests(options: BestsOptions): void {
  const rows = bestsOf(journalSoFar(dataFolderOf(options)));
  if (options.json) printJson(rows);
  else process.stdout.write(rows.length === 0 ? NONE : textTable(COLUMNS, rows.map(cells)));
}
