/** The notes of the bar being played with their syllables beneath, the sounding beat marked, the next bar below. */
import { type Strip, type StripBeat, type StripNote, isLonger } from '../../music/page/strip.ts';
import { type PaintedLine, type Tone, seg } from '../paint.ts';

export interface StripView {
  readonly strip: Strip;
  /** Bar and beat being heard, both from 0; `beat` null where nothing is heard. */
  readonly bar: number;
  readonly beat: number | null;
  /** The bar that follows, or null at the end. */
  readonly next: number | null;
}

/** A stretch of whole beats that is drawn in one row. */
interface Stretch {
  readonly beats: readonly StripBeat[];
  /** Index of its first beat in the bar. */
  readonly first: number;
  readonly from: number;
  readonly to: number;
}

/** Rows as single characters, so that figures may lie over one another. */
interface Drawn {
  readonly heads: string[];
  readonly names: string[];
  readonly words: string[];
  /** Column at which each beat begins. */
  readonly starts: readonly number[];
}

const WIDEST = 112;

/** Columns a note needs, a blank after it. */
const needs = (note: StripNote): number => Math.max([...note.label].length, [...note.syllable].length, 1) + 1;

/** Columns the whole bar needs so that its fullest beat has room. */
function columnsFor(notes: readonly StripNote[], beats: readonly StripBeat[]): number {
  const shares = beats.map((beat, i) => {
    const room = notes.filter((note) => note.beat === i).reduce((sum, note) => sum + needs(note), 1);
    return room / (beat.to - beat.from);
  });
  return Math.ceil(Math.max(...shares));
}

/** As many rows as it takes, whole beats in each. */
function stretchesOf(notes: readonly StripNote[], beats: readonly StripBeat[], width: number): readonly Stretch[] {
  const rows = Math.min(beats.length, Math.max(1, Math.ceil(columnsFor(notes, beats) / width)));
  const perRow = Math.ceil(beats.length / rows);
  return Array.from({ length: Math.ceil(beats.length / perRow) }, (_, row) => {
    const part = beats.slice(row * perRow, (row + 1) * perRow);
    return { beats: part, first: row * perRow, from: part[0]?.from ?? 0, to: part.at(-1)?.to ?? 1 };
  });
}

function write(row: string[], column: number, text: string): void {
  [...text].forEach((sign, i) => {
    if (column + i < row.length) row[column + i] = sign;
  });
}

/** The column of a moment of the bar. The separator of its beat stands one before. */
const columnOf = (moment: number, { from, to }: Stretch, width: number): number =>
  1 + Math.round(((moment - from) / (to - from)) * (width - 1));

interface Placed {
  readonly note: StripNote;
  readonly column: number;
  /** Where its line ends, if it has one. */
  readonly end: number;
}

/** Notes stand where their time is, moved only as far as the names in the same beat need room. */
function placed(notes: readonly StripNote[], stretch: Stretch, width: number): readonly Placed[] {
  const latest: number[] = [];
  let [room, beat] = [0, -1];
  for (let i = notes.length - 1; i >= 0; i -= 1) {
    const note = notes[i];
    if (!note) continue;
    const end = stretch.beats[note.beat - stretch.first]?.to ?? stretch.to;
    if (note.beat !== beat) room = columnOf(end, stretch, width) - 1;
    beat = note.beat;
    room -= needs(note);
    latest[i] = room + 1;
  }
  let free = 1;
  return notes.map((note, i) => {
    const column = Math.max(Math.min(columnOf(note.from, stretch, width), latest[i] ?? width), free);
    free = column + needs(note);
    return { note, column, end: columnOf(note.to, stretch, width) - 2 };
  });
}

/** Notes that last longer than others of the bar, or than a beat, have their line drawn out. */
const isDrawnOut = (note: StripNote, bar: readonly StripNote[], stretch: Stretch): boolean => {
  const beat = stretch.beats[note.beat - stretch.first];
  return (
    note.kind === 'held' || (note.kind === 'note' && (isLonger(note, bar) || (beat !== undefined && note.to > beat.to)))
  );
};

function drawStretch(bar: readonly StripNote[], stretch: Stretch, width: number): Drawn {
  const blank = (): string[] => Array.from({ length: width }, () => ' ');
  const [heads, names, words] = [blank(), blank(), blank()];
  const starts = stretch.beats.map((beat) => columnOf(beat.from, stretch, width) - 1);
  const mine = bar.filter((note) => note.beat >= stretch.first && note.beat < stretch.first + stretch.beats.length);
  stretch.beats.forEach((beat, i) => {
    write(heads, (starts[i] ?? 0) + 1, `${stretch.first + i + 1}`);
    if (beat.divided) for (const row of [names, words]) write(row, starts[i] ?? 0, i === 0 ? '│' : '┊');
  });
  let slurFrom = 0;
  for (const { note, column, end } of placed(mine, stretch, width)) {
    if (isDrawnOut(note, bar, stretch))
      for (let at = column; at < Math.max(end, column + 1); at += 1) if (names[at] === ' ') names[at] = '─';
    write(names, column, note.label);
    if (note.slurred && note.syllable === '') drawSlur(words, slurFrom, column);
    else write(words, column, note.syllable);
    if (note.kind !== 'held') slurFrom = column + [...note.syllable].length;
  }
  return { heads, names, words, starts };
}

/** Where a bar or a beat begins. */
const isLine = (sign: string | undefined): boolean => sign === '│' || sign === '┊';

/** A line from the last stroke, or from the slur's last corner, to this note. */
function drawSlur(words: string[], from: number, to: number): void {
  for (let at = from; at < to; at += 1) if (!isLine(words[at]) || at > from) words[at] = '─';
  if (from > 0 && words[from - 1] === '╯') words[from - 1] = '─';
  write(words, to, '╯');
}

/** A row cut at its beats, so that the sounding one can have a tone of its own. */
function toned(row: readonly string[], starts: readonly number[], toneOf: (beat: number) => Tone): PaintedLine {
  return starts.map((start, i) => seg(row.slice(start, starts[i + 1] ?? row.length).join(''), toneOf(i)));
}

/** The head of the sounding beat is marked by shape too: '▼2━━━━━'. */
function marked(heads: readonly string[], starts: readonly number[], sounding: number): readonly string[] {
  const from = starts[sounding];
  if (from === undefined) return heads;
  const to = (starts[sounding + 1] ?? heads.length) - 1;
  return heads.map((sign, at) => (at === from ? '▼' : at > from && at < to && sign === ' ' ? '━' : sign));
}

function stretchRows(
  bar: readonly StripNote[],
  stretch: Stretch,
  width: number,
  beat: number | null,
): readonly PaintedLine[] {
  const { heads, names, words, starts } = drawStretch(bar, stretch, width);
  const sounding = beat === null ? -1 : beat - stretch.first;
  const head = (i: number): Tone => (i === sounding ? 'now' : 'dim');
  const note = (i: number): Tone => (i === sounding ? 'now' : 'strong');
  const word = (i: number): Tone => (i === sounding ? 'now' : 'plain');
  return [toned(marked(heads, starts, sounding), starts, head), toned(names, starts, note), toned(words, starts, word)];
}

/** The next bar is dim, and its lines are broken for terminals that show nothing dim. */
const nextRows = (bar: readonly StripNote[], stretch: Stretch, width: number): readonly PaintedLine[] => {
  const { names, words } = drawStretch(bar, stretch, width);
  return [names, words].map((row) => [
    seg(
      row
        .join('')
        .replaceAll(/─┊(?=─)/gu, '──')
        .replaceAll('┊', ' ')
        .replaceAll('│', '┊'),
      'dim',
    ),
  ]);
};

const ROWS_NOW = 3;
const ROWS_NEXT = 2;

/** How many rows each bar breaks into at a width. */
const breaks = ({ bars, beats }: Strip, columns: number): readonly number[] =>
  bars.map((notes) => stretchesOf(notes, beats, columns).length);

/** Lines that the fullest bar takes, the next one with it, so that the strip keeps its height from bar to bar. */
export function stripHeight(strip: Strip, width: number, most: number): number {
  const rows = breaks(strip, Math.min(width, WIDEST));
  const tallest = rows.map((own, bar) => {
    const both = ROWS_NOW * own + ROWS_NEXT * (rows[bar + 1] ?? 0);
    return both <= most ? both : Math.min(ROWS_NOW * own, most - (most % ROWS_NOW));
  });
  return Math.max(0, ...tallest);
}

/** Where the bar has more rows than there is room for: the page of them on which the beat is. */
function pageOf(stretches: readonly Stretch[], beat: number, height: number): readonly Stretch[] {
  const most = Math.max(1, Math.floor(height / ROWS_NOW));
  if (stretches.length <= most) return stretches;
  const row = Math.max(
    0,
    stretches.findLastIndex(({ first }) => first <= beat),
  );
  return stretches.slice(row - (row % most), row - (row % most) + most);
}

/**
 * At most `height` lines of at most `width` columns: three for each row of the bar (most bars take one), then,
 * where there is room, two of the next bar. A bar too full for the width is broken between beats.
 */
export function noteStrip(view: StripView, width: number, height = 5): readonly PaintedLine[] {
  const { strip, bar, beat, next } = view;
  const notes = strip.bars[bar];
  if (!notes) return [];
  const columns = Math.min(width, WIDEST);
  const now = pageOf(stretchesOf(notes, strip.beats, columns), beat ?? 0, height);
  const rows = now.flatMap((stretch) => stretchRows(notes, stretch, columns, beat));
  const coming = next === null ? undefined : strip.bars[next];
  const below = coming
    ? stretchesOf(coming, strip.beats, columns).flatMap((stretch) => nextRows(coming, stretch, columns))
    : [];
  return rows.length + below.length <= height ? [...rows, ...below] : rows;
}
