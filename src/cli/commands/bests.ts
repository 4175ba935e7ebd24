import { dayNumber } from '../../common/days.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { bestsCsv } from '../../review/bests-csv.ts';
import { type BestLine, bestsWithEstimates } from '../../review/line-estimates.ts';
import { stampOf, systemClock } from '../../runtime/clock.ts';
import type { DataFolder } from '../../runtime/files/data-folder.ts';
import { exercisesThere } from '../files/exercises-there.ts';
import { journalSoFar } from '../files/journal-so-far.ts';
import { playersSettings } from '../files/players-settings.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { printJson } from '../output/print.ts';
import { textTable } from '../output/text-table.ts';

export interface BestsOptions extends DataOption {
  readonly json?: boolean;
  readonly csv?: boolean;
}

const COLUMNS = [
  { head: 'exercise' },
  { head: 'articulation' },
  { head: 'key' },
  { head: 'best', right: true },
  { head: 'notes/s', right: true },
  { head: 'held on' },
  { head: 'goes on at', right: true },
  { head: 'target', right: true },
  { head: '4 weeks', right: true },
  { head: 'known' },
];

const signed = (gain: number): string => {
  const rounded = Math.round(gain);
  return `${rounded > 0 ? '+' : ''}${rounded === 0 ? 0 : rounded}`;
};

const cells = (row: BestLine): readonly string[] => [
  row.title,
  row.articulation,
  row.key,
  row.bpm === null ? '–' : bpmText(row.bpm),
  row.notesPerSecond === null ? '–' : row.notesPerSecond.toFixed(1),
  row.day ?? '–',
  bpmText(row.next),
  row.target === null ? '–' : bpmText(row.target),
  row.trend === null ? '–' : signed(row.trend),
  row.estimate?.said ?? '–',
];

const NONE = 'No line was marked yet. A best is a rung that was held: clean several times in a row.\n';

async function allBests(folder: DataFolder): Promise<readonly BestLine[]> {
  const exercises = await exercisesThere(folder);
  const { dayStart } = await playersSettings(folder);
  const { day } = stampOf(systemClock, dayStart);
  return bestsWithEstimates(journalSoFar(folder), exercises, dayNumber(day));
}

export async function bests(options: BestsOptions): Promise<void> {
  const rows = await allBests(dataFolderOf(options));
  if (options.json) return printJson(rows);
  if (options.csv) return void process.stdout.write(bestsCsv(rows));
  process.stdout.write(rows.length === 0 ? NONE : textTable(COLUMNS, rows.map(cells)));
}
