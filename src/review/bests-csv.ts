/** The bests for other programs, with everything that is known of each line. */
import { csvTable } from '../journal/csv-export.ts';
import { bpmText } from '../music/time/tempo-text.ts';
import type { BestLine } from './line-estimates.ts';

type Cell = string | number | null;

const tempo = (bpm: number | null): Cell => (bpm === null ? null : Number(bpmText(bpm)));
const share = (of: number | null): Cell => (of === null ? null : Math.round(of * 1000) / 1000);

const COLUMNS: readonly (readonly [name: string, of: (row: BestLine) => Cell])[] = [
  ['exercise', ({ exercise }) => exercise],
  ['title', ({ title }) => title],
  ['articulation', ({ articulation }) => articulation],
  ['key', ({ key }) => key],
  ['best beats per minute', ({ bpm }) => tempo(bpm)],
  ['beat', ({ beat }) => beat],
  ['best notes per second', ({ notesPerSecond }) => notesPerSecond],
  ['held on', ({ day }) => day],
  ['goes on at', ({ next }) => tempo(next)],
  ['target', ({ target }) => tempo(target)],
  ['safe tempo', ({ estimate }) => estimate?.bpm ?? null],
  ['lowest (80 %)', ({ estimate }) => estimate?.low ?? null],
  ['highest (80 %)', ({ estimate }) => estimate?.high ?? null],
  ['what may be said', ({ estimate }) => estimate?.said ?? null],
  ['gained in four weeks', ({ trend }) => trend],
  ['marks', ({ estimate }) => estimate?.marks ?? 0],
  ['share clean', ({ clean }) => share(clean)],
  ['last played', ({ lastDay }) => lastDay],
];

/** One row for each line: comma-separated values as RFC 4180 describes them. */
export const bestsCsv = (rows: readonly BestLine[]): string =>
  csvTable(
    COLUMNS.map(([name]) => name),
    rows.map((row) => COLUMNS.map(([, of]) => of(row))),
  );
