import { dayNumber } from '../../common/days.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { type BestRow, bestsOf } from '../../review/bests.ts';
import { bestsWithEstimates } from '../../review/line-estimates.ts';
import { stampOf, systemClock } from '../../runtime/clock.ts';
import type { DataFolder } from '../../runtime/files/data-folder.ts';
import { routinesOf } from '../../runtime/files/routine-cache.ts';
import { exercisesOf } from '../../runtime/files/routine-finder.ts';
import { journalSoFar } from '../files/journal-so-far.ts';
import { playersSettings } from '../files/players-settings.ts';
import { type DataOption, dataFolderOf } from '../options/data-option.ts';
import { printJson, printText } from '../output/print.ts';
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

async function printEstimated(folder: DataFolder): Promise<void> {
  const found = exercisesOf(await routinesOf(folder.path));
  const exercises = new Map([...found].map(([name, { exercise }]) => [name, exercise]));
  const { dayStart } = await playersSettings(folder);
  const { day } = stampOf(systemClock, dayStart);
  printJson(bestsWithEstimates(journalSoFar(folder), exercises, dayNumber(day)));
}

export async function bests(options: BestsOptions): Promise<void> {
  const folder = dataFolderOf(options);
  if (options.json) return printEstimated(folder);
  const rows = bestsOf(journalSoFar(folder));
  printText(rows.length === 0 ? NONE : textTable(COLUMNS, rows.map(cells)));
}
