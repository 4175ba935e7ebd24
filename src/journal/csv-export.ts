/** The journal for other programs; pure. */
import { withSign } from '../common/harmless-text.ts';
import { bpmText } from '../music/time/tempo-text.ts';
import { notesPerSecond } from '../music/time/meter.ts';
import type { Line } from '../ladder/line.ts';
import type { Entry, MarkEntry } from '../diary/entry.ts';

/** The marks that count: those taken back are left out. */
export function countingMarks(entries: readonly Entry[]): readonly MarkEntry[] {
  const undone = new Set(entries.flatMap((entry) => (entry.kind === 'undo' ? [entry.of] : [])));
  return entries.filter((entry): entry is MarkEntry => entry.kind === 'mark' && !undone.has(entry.id));
}

const rounded = (value: number): number => Math.round(value * 1000) / 1000;

/** Of which lines nothing is claimed in notes a second: own material whose notes nobody has said. */
type Unknown = (line: Line) => boolean;

type Cell = (mark: MarkEntry, isUnknown: Unknown) => string | number;

const speed: Cell = (mark, isUnknown) => (isUnknown(mark) ? '' : rounded(notesPerSecond(mark.bpm, mark.notesPerBeat)));

const COLUMNS: readonly (readonly [name: string, of: Cell])[] = [
  ['day', ({ day }) => day],
  ['at', ({ at }) => at],
  ['exercise', ({ exercise }) => exercise],
  ['articulation', ({ articulation }) => articulation],
  ['key', ({ key }) => key],
  ['mark', ({ mark }) => mark],
  ['beats per minute', ({ bpm }) => Number(bpmText(bpm))],
  ['beat', ({ beat }) => beat],
  ['notes per second', speed],
  ['next beats per minute', ({ next }) => Number(bpmText(next))],
  ['marked by', ({ by }) => by],
];

/** A cell that a spreadsheet would take for a formula is shown to it as text. */
const asText = (cell: string): string => (/^[=+\-@＝＋－＠]/.test(cell) ? `'${cell}` : cell);

function cellOf(value: string | number): string {
  if (typeof value === 'number') return String(value);
  // A text of the player's must not steer a terminal or a table.
  const cell = asText(withSign(value, ' '));
  return /[",]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** A table as RFC 4180 describes it: a heading, rows, each ended by CR and LF. Nothing known is an empty cell. */
export const csvTable = (heads: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string =>
  [heads, ...rows.map((row) => row.map((cell) => cellOf(cell ?? '')))].map((row) => `${row.join(',')}\r\n`).join('');

/** One row for each mark that counts, with a heading: comma-separated values as RFC 4180 describes them. */
export function toCsv(entries: readonly Entry[], isUnknown: Unknown = () => false): string {
  const rows = countingMarks(entries).map((mark) => COLUMNS.map(([, of]) => of(mark, isUnknown)));
  return csvTable(
    COLUMNS.map(([name]) => name),
    rows,
  );
}
