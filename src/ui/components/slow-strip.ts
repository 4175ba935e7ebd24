/**
 * Long notes in one view: bars side by side, each note a line as long as it lasts that grows while it is heard, its
 * seconds beneath; a comma where a breath is. Where there are more bars than room it turns over by phrases.
 */
import type { Seconds } from '../../common/units.ts';
import type { Strip } from '../../music/page/strip.ts';
import { type LongNote, breathsOf, longNotes, pages, phrases } from './long-notes.ts';
import { type PaintedLine, type Segment, type Tone, seg } from '../paint.ts';

export interface SlowView {
  readonly strip: Strip;
  /** Bars from the beginning to the end of the beat that is heard; null where nothing is. */
  readonly heard: number | null;
  /** How long a bar lasts; null where there is no beat to say so. */
  readonly barSeconds: Seconds | null;
}

const LEAST_BAR = 9;
const WIDEST_BAR = 20;
const LINES = 3;

const isNear = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;

interface Layout {
  readonly perRow: number;
  readonly rows: number;
  readonly width: number;
}

/** As many bars side by side as can be read, in as few rows as it takes. */
function layoutOf(strip: Strip, columns: number, height: number): Layout {
  const widest = Math.max(
    LEAST_BAR,
    ...strip.bars.map((notes) =>
      notes.reduce((sum, { label, syllable }) => sum + label.length + syllable.length + 4, 1),
    ),
  );
  const most = Math.max(1, Math.floor(columns / widest));
  const rows = Math.max(1, Math.min(Math.floor(height / LINES), Math.ceil(strip.bars.length / most)));
  const perRow = Math.min(most, Math.ceil(strip.bars.length / rows));
  return { perRow, rows, width: Math.min(WIDEST_BAR, Math.floor(columns / perRow)) };
}

interface Row {
  readonly bars: readonly number[];
  readonly width: number;
}

type Cells = { sign: string; tone: Tone }[];

const blank = ({ bars, width }: Row): Cells =>
  Array.from({ length: bars.length * width }, () => ({ sign: ' ', tone: 'plain' as Tone }));

function put(cells: Cells, at: number, text: string, tone: Tone): void {
  [...text].forEach((sign, i) => {
    if (at + i >= 0 && at + i < cells.length) cells[at + i] = { sign, tone };
  });
}

/** The column of a moment in this row. The bar line of its bar stands before it. */
const columnOf = (moment: number, { bars, width }: Row): number => Math.round((moment - (bars[0] ?? 0)) * width);

function headRow(row: Row, heard: number | null): Cells {
  const cells = blank(row);
  row.bars.forEach((bar, i) => {
    const isNow = heard !== null && heard > bar && heard <= bar + 1;
    put(cells, i * row.width, isNow ? '▼' : ' ', 'now');
    put(cells, i * row.width + 1, `${bar + 1}`, isNow ? 'now' : 'dim');
  });
  return cells;
}

const isHeard = ({ from, to }: LongNote, heard: number | null): heard is number =>
  heard !== null && heard > from + 1e-6 && heard <= to + 1e-6;

/** The line of a note: what was heard of it is heavy. */
function drawLine(cells: Cells, row: Row, note: LongNote, heard: number | null): void {
  const [from, to] = [Math.max(0, columnOf(note.from, row) + 1), columnOf(note.to, row) - 1];
  const grown = isHeard(note, heard) ? columnOf(heard, row) : -1;
  for (let at = from; at < to; at += 1) put(cells, at, at < grown ? '━' : '─', at < grown ? 'now' : 'plain');
}

function noteRow(row: Row, notes: readonly LongNote[], breaths: readonly number[], heard: number | null): Cells {
  const cells = blank(row);
  for (const note of notes) {
    if (!note.isRest) drawLine(cells, row, note, heard);
    put(cells, columnOf(note.from, row) + 1, note.label, isHeard(note, heard) ? 'now' : 'strong');
  }
  row.bars.forEach((_, i) => put(cells, i * row.width, '│', 'dim'));
  for (const at of breaths) put(cells, columnOf(at, row) - 1, ',', 'strong');
  return cells;
}

const rounded = (seconds: Seconds): string => `${Math.round(seconds * 10) / 10}`;

/** '8 s', and of the note that is heard '3 of 8 s'. */
function secondsOf({ from, to }: LongNote, heard: number | null, barSeconds: Seconds): string {
  const all = rounded((to - from) * barSeconds);
  return heard === null ? `${all} s` : `${rounded((heard - from) * barSeconds)} of ${all} s`;
}

function wordRow(row: Row, notes: readonly LongNote[], { heard, barSeconds }: SlowView): Cells {
  const cells = blank(row);
  for (const note of notes.filter(({ isRest }) => !isRest)) {
    const isNow = isHeard(note, heard);
    const seconds = barSeconds === null ? '' : secondsOf(note, isNow ? heard : null, barSeconds);
    const words = [note.syllable, seconds].filter((word) => word !== '').join(' ');
    const from = columnOf(note.from, row) + 1;
    put(cells, from, words.slice(0, Math.max(0, columnOf(note.to, row) - 1 - from)), isNow ? 'now' : 'dim');
  }
  row.bars.forEach((_, i) => put(cells, i * row.width, '│', 'dim'));
  return cells;
}

/** Neighbours of one tone are one segment. */
const painted = (cells: Cells): PaintedLine =>
  cells.reduce<Segment[]>((line, { sign, tone }) => {
    const last = line.at(-1);
    if (last?.tone !== tone) return [...line, seg(sign, tone)];
    return [...line.slice(0, -1), seg(last.text + sign, tone)];
  }, []);

const within = ({ bars }: Row, { from, to }: LongNote): boolean => {
  const [first = 0] = bars;
  return to > first + 1e-6 && from < first + bars.length - 1e-6;
};

function rowLines(row: Row, notes: readonly LongNote[], breaths: readonly number[], view: SlowView): PaintedLine[] {
  const mine = notes.filter((note) => within(row, note));
  const [first = 0] = row.bars;
  const ends = breaths.filter(
    (at) => at > first + 1e-6 && (at < first + row.bars.length || isNear(at, first + row.bars.length)),
  );
  // What began in a row before goes on without its name.
  const begun = mine.map((note) => (note.from < first - 1e-6 ? { ...note, label: '', syllable: '' } : note));
  return [headRow(row, view.heard), noteRow(row, begun, ends, view.heard), wordRow(row, begun, view)].map(painted);
}

/** At most `height` lines; the page on which the heard beat is, or the first. */
export function slowStrip(view: SlowView, columns: number, height: number): readonly PaintedLine[] {
  const { strip, heard } = view;
  const { perRow, rows, width } = layoutOf(strip, columns, height);
  const notes = longNotes(strip);
  const breaths = breathsOf(notes);
  const all = pages(phrases(strip.bars.length, breaths), perRow * rows);
  const bar = heard === null ? 0 : Math.max(0, Math.ceil(heard - 1e-6) - 1);
  const page = all.find((one) => one.includes(bar)) ?? all[0] ?? [];
  const inRows = Array.from({ length: Math.ceil(page.length / perRow) }, (_, i) =>
    page.slice(i * perRow, (i + 1) * perRow),
  );
  return inRows.flatMap((bars) => rowLines({ bars, width }, notes, breaths, view));
}

/** Lines it takes, on every page the same. */
export const slowHeight = (strip: Strip, columns: number, height: number): number =>
  layoutOf(strip, columns, height).rows * LINES;
