/** The grid of keys and ways of tonguing: what was played today, what before, and what is still to come. */
import { keyLetters } from '../../music/pitch/key-letters.ts';
import type { CellPlayed, Grid } from '../../plan/rotation/grid.ts';
import type { ArticulationName, KeyName } from '../../ladder/line.ts';
import { type PaintedLine, type Segment, fit, line, seg } from '../paint.ts';

/** A cell by its names. */
export interface Cell {
  readonly key: KeyName;
  readonly articulation: ArticulationName;
}

export interface GridView extends Grid {
  /** On the stand. */
  readonly now: Cell;
  /** Under the finger; null where nothing is being chosen. */
  readonly finger: Cell | null;
}

const SIGNS: Readonly<Record<CellPlayed, string>> = { today: '●', before: '○', never: '·' };

/** So many items of a list around one of them. */
function around<T>(items: readonly T[], at: number, room: number): readonly T[] {
  const from = Math.max(0, Math.min(at - Math.floor(room / 2), items.length - room));
  return items.slice(from, from + Math.max(1, room));
}

const isCell = (cell: Cell | null, key: KeyName, articulation: ArticulationName): boolean =>
  cell?.key === key && cell.articulation === articulation;

function cellOf(view: GridView, key: KeyName, articulation: ArticulationName, width: number): Segment {
  const played = view.played[view.articulations.indexOf(articulation)]?.[view.keys.indexOf(key)] ?? 'never';
  const sign = SIGNS[played];
  const isNow = isCell(view.now, key, articulation);
  const isUnder = isCell(view.finger, key, articulation);
  const text = isUnder ? `>${sign}<` : isNow ? `[${sign}]` : ` ${sign} `;
  const tone = isUnder || isNow ? 'now' : played === 'today' ? 'clean' : played === 'before' ? 'plain' : 'dim';
  return seg(text.padEnd(width), tone);
}

/** '17 of 48 this round   ● today 5  ○ before 9  · 34 never' */
function gridWords({ came, of, played }: GridView, columns: number): PaintedLine {
  const count = (which: CellPlayed): number => played.flat().filter((one) => one === which).length;
  const round = ` ${came} of ${of} this round`;
  const words = `   ${SIGNS.today} today ${count('today')}  ${SIGNS.before} before ${count('before')}`;
  const never = `  ${SIGNS.never} ${count('never')} never`;
  const isWide = round.length + words.length + never.length <= columns;
  return line(seg(round, 'strong'), seg(`${words}${isWide ? never : ''}`));
}

const LEAST_LABEL = 10;

/** Rows that the whole grid takes: names, cells, and what they come to. */
export const gridHeight = ({ articulations }: Grid): number => articulations.length + 2;

/** The part of the grid that there is room for, around the cell under the finger, or the one on the stand. */
export function turnGrid(view: GridView, columns: number, rows: number): readonly PaintedLine[] {
  const { keys, articulations, now } = view;
  const at = view.finger ?? now;
  const cell = Math.max(3, ...keys.map((key) => keyLetters(key).length + 1));
  const names = Math.max(...articulations.map((name) => name.length)) + 2;
  // A long name is cut short where that keeps all keys in sight.
  const label = Math.min(20, names, Math.max(LEAST_LABEL, columns - keys.length * cell));
  const shown = around(keys, keys.indexOf(at.key), Math.floor((columns - label) / cell));
  const named = around(articulations, articulations.indexOf(at.articulation), rows - 2);
  const head = shown.map((key) => seg(` ${keyLetters(key)}`.padEnd(cell), key === at.key ? 'strong' : 'dim'));
  const body = named.map((articulation) => [
    ...fit(line(seg(` ${articulation}`, articulation === at.articulation ? 'strong' : 'dim')), label),
    ...shown.map((key) => cellOf(view, key, articulation, cell)),
  ]);
  return [[seg(' '.repeat(label)), ...head], ...body, gridWords(view, columns)].map((painted) => fit(painted, columns));
}
