/**
 * What has just happened, or what is to be done now, as one large shape: solid or hollow, waving or crossed, pointing
 * up or down. From across a room, where no word can be read, the shapes are still told apart.
 */
import { type PaintedLine, line, seg } from '../paint.ts';
import { type CellSize, largestCells, tallText, tallWidth } from './tall-figures.ts';

export type ShapeKind =
  'ready' | 'count' | 'play' | 'breathe' | 'doors' | 'paused' | 'clean' | 'tense' | 'missed' | 'up' | 'down' | 'back';

export interface StateShape {
  readonly kind: ShapeKind;
  /** In tall letters where there is room. */
  readonly word: string;
  /** In letters of the usual size below the tall ones: '2 OF 3'. */
  readonly detail: string;
  /** Both in one line where nothing tall fits, if not just one after the other: '● CLEAN 2 OF 3'. */
  readonly plain?: string;
  /** How far the beat has filled it, or how much breath has gone, 0 to 1. */
  readonly share: number;
  /** What stands on the three doors: key and mark. */
  readonly doors?: readonly string[];
  /** Said, but it counts later: drawn half as heavy. */
  readonly early?: boolean;
}

type Cells = string[][];

const blank = (width: number, height: number, fill: (row: number, column: number) => string): Cells =>
  Array.from({ length: height }, (_, row) => Array.from({ length: width }, (__, column) => fill(row, column)));

/** Puts a text on the cells; what does not fit is left out. A blank of it covers too. */
function put(cells: Cells, row: number, column: number, text: string): void {
  [...text].forEach((character, k) => {
    const own = cells[row];
    if (own && column + k >= 0 && column + k < own.length) own[column + k] = character;
  });
}

const middle = (room: number, size: number): number => Math.max(0, Math.floor((room - size) / 2));

function putCentred(cells: Cells, row: number, text: string): void {
  const width = cells[0]?.length ?? 0;
  const shown = [...text].slice(0, width).join('');
  put(cells, row, middle(width, [...shown].length), shown);
}

/** Tall letters or the plain word in the middle, on a cleared field, with the detail below them. */
function putWord(cells: Cells, shape: StateShape, margin: number): void {
  const { word, detail } = shape;
  const [width, height] = [cells[0]?.length ?? 0, cells.length];
  const size = largestCells(word, width - 2 * margin - 2, height - 2 - (detail ? 1 : 0));
  if (size) putField(cells, word, detail, size);
  else putPlain(cells, shape, width - 2 * margin);
}

/** In one line, or broken into two where there is a row more than room. */
function putPlain(cells: Cells, { word, detail, plain }: StateShape, room: number): void {
  const whole = plain ?? [word, detail].filter((part) => part !== '').join(' ');
  const lines = [...whole].length + 2 > room && cells.length > 1 ? [word, detail] : [whole];
  const widest = Math.max(...lines.map((text) => [...text].length)) + (room >= 20 ? 4 : 2);
  lines.forEach((text, k) => {
    const left = ' '.repeat(Math.floor((widest - [...text].length) / 2));
    putCentred(cells, Math.floor((cells.length - lines.length) / 2) + k, (left + text).padEnd(widest));
  });
}

function putField(cells: Cells, word: string, detail: string, size: CellSize): void {
  const tall = tallText(word, size);
  const lines = detail ? [...tall, detail] : tall;
  const width = Math.max(tallWidth(word, size), [...detail].length) + 2;
  const top = middle(cells.length, lines.length);
  lines.forEach((text, k) => {
    const left = Math.floor((width - [...text].length) / 2);
    putCentred(cells, top + k, (' '.repeat(left) + text).padEnd(width));
  });
}

/** Columns of a frame's upright sides: two of them are as thick as one row is high. */
const sidesOf = (width: number): number => (width >= 14 ? 2 : 1);

/** A thick frame, or one of which every second piece is missing. */
function putFrame(cells: Cells, isBroken: boolean): void {
  const [width, height] = [cells[0]?.length ?? 0, cells.length];
  const side = sidesOf(width);
  cells.forEach((own, row) =>
    own.forEach((_, column) => {
      const isEdge = row === 0 || row === height - 1 || column < side || column >= width - side;
      const isMissing = isBroken && (Math.floor(column / 2) + row) % 2 === 1;
      if (isEdge) own[column] = isMissing ? ' ' : '█';
    }),
  );
}

type Draw = (shape: StateShape, width: number, height: number) => Cells;

/** The word alone: nothing presses. */
const ready: Draw = (shape, width, height) => {
  const cells = blank(width, height, () => ' ');
  putWord(cells, shape, 0);
  return cells;
};

/** Columns of a pillar: solid, so that two of them are no crosses when blurred. */
const PILLAR = 5;

/** A pillar at either side. */
const paused: Draw = (shape, width, height) => {
  const isPillar = (column: number): boolean => width >= 20 && (column < PILLAR || column >= width - PILLAR);
  const cells = blank(width, height, (_, column) => (isPillar(column) ? '█' : ' '));
  putWord(cells, shape, 7);
  return cells;
};

/** Stairs up to the beat that is counted, and its number. */
const count: Draw = ({ word, share, detail }, width, height) => {
  const size = largestCells(word, Math.floor(width / 3), height);
  const from = size ? tallWidth(word, size) + 3 : 0;
  const [room, until] = [width - from, Math.round((width - from) * share)];
  const cells = blank(width, height, (row, column) => {
    const step = column - from;
    const stairs = Math.ceil(((step + 1) / Math.max(1, room)) * height);
    return step >= 0 && step < until && height - row <= stairs ? '█' : ' ';
  });
  if (size) tallText(word, size).forEach((text, row) => put(cells, middle(height, 5 * size.rows) + row, 0, text));
  else putCentred(cells, Math.floor((height - 1) / 2), ` ${detail} ${word} `);
  return cells;
};

/** The word fills up, beat by beat: solid what has been played of the bar, grey what is to come. */
const play: Draw = ({ word, share }, width, height) => {
  const size = largestCells(word, width, height);
  const until = Math.round(width * share);
  const cells = blank(width, height, (_, column) => (column < until ? '█' : '░'));
  if (!size) {
    putCentred(cells, Math.floor((height - 1) / 2), ` ${word} `);
    return cells;
  }
  const top = middle(height, 5 * size.rows);
  const left = middle(width, tallWidth(word, size));
  const tall = tallText(word, size);
  return blank(width, height, (row, column) => {
    const isLetter = tall[row - top]?.[column - left] === '█';
    if (isLetter) return column < until ? '█' : '░';
    return row >= top + tall.length && height - top - tall.length > 1 ? (column < until ? '▄' : ' ') : ' ';
  });
};

/** A hollow box that empties. */
const breathe: Draw = (shape, width, height) => {
  const until = 3 + Math.round((width - 6) * (1 - shape.share));
  const cells = blank(width, height, (_, column) => (column >= 3 && column < until ? '░' : ' '));
  putFrame(cells, false);
  putWord(cells, shape, 2);
  return cells;
};

/** One door: a thick frame, and what stands on it in the middle. */
function door(name: string, width: number, height: number): Cells {
  const cells = blank(width, height, () => ' ');
  putFrame(cells, false);
  const said = name.split('\n');
  const rows = height - 2 < said.length ? [said.at(0) ?? ''] : said;
  rows.forEach((text, row) => putWithin(cells, 1 + middle(height - 2, rows.length) + row, text));
  return cells;
}

/** In the middle between the two sides of a frame. */
function putWithin(cells: Cells, row: number, text: string): void {
  const width = cells[0]?.length ?? 0;
  const room = width - 2 * sidesOf(width);
  const shown = [...text].slice(0, Math.max(0, room)).join('');
  put(cells, row, sidesOf(width) + middle(room, [...shown].length), shown);
}

/** Three doors to choose from, side by side; in the middle of them all what is asked. */
const doors: Draw = ({ word, doors: names = [] }, width, height) => {
  const cells = blank(width, height, () => ' ');
  const each = Math.floor((width - 2) / 3);
  names.forEach((name, k) => {
    const from = k === 2 ? width - each : k * (each + 1);
    door(name, each, height).forEach((own, row) => put(cells, row, from, own.join('')));
  });
  if (width >= 20 && height >= 2) putCentred(cells, 0, ` ${word} `);
  return cells;
};

/** One solid block, the letters cut out of it. */
const clean: Draw = (shape, width, height) => {
  const fill = shape.early ? '▒' : '█';
  const size = largestCells(shape.word, width - 4, height - 3);
  const cells = blank(width, height, () => fill);
  if (!size) {
    putWord(cells, shape, 2);
    return cells;
  }
  const tall = tallText(shape.word, size);
  const top = middle(height - 1, tall.length);
  tall.forEach((text, row) => {
    const left = middle(width, [...text].length);
    [...text].forEach((cell, k) => cell === '█' && put(cells, top + row, left + k, ' '));
  });
  const below = top + tall.length + (height - top - tall.length > 2 ? 1 : 0);
  if (shape.detail) putCentred(cells, below, ` ${shape.detail} `);
  return cells;
};

/** Columns from crest to crest: the higher the wave, the longer, so that it never looks like teeth. */
const waveOf = (height: number): number => Math.max(10, Math.round(height * 1.4));

/** One thick wave from side to side. */
const tense: Draw = (shape, width, height) => {
  const thick = height >= 14 ? 5 : height >= 8 ? 3 : height >= 5 ? 2 : 1;
  const fill = shape.early ? '▒' : '█';
  const cells = blank(width, height, (row, column) => {
    const crest = ((1 - Math.cos((2 * Math.PI * column) / waveOf(height))) / 2) * (height - thick);
    const depth = row - Math.round(crest);
    return depth >= 0 && depth < thick ? fill : ' ';
  });
  // A crest stays to be seen at either side of tall letters.
  putWord(cells, shape, height >= 8 ? Math.min(waveOf(height), Math.floor(width / 5)) : 2);
  return cells;
};

/** Columns of a slanting stroke: a larger figure is drawn with a broader pen. */
const strokeOf = (height: number): number => Math.max(2, 2 * Math.floor(height / 6));

/** A cross at either side, as high as the panel. */
const missed: Draw = (shape, width, height) => {
  const widest = Math.floor((width - roomForWords(shape, height)) / 2);
  const across = Math.min(2 * height, widest);
  const cells = blank(width, height, () => ' ');
  putWord(cells, shape, Math.max(0, across));
  if (across < 4) return cells;
  const stroke = '█'.repeat(strokeOf(height));
  for (let row = 0; row < height; row += 1) {
    const inset = Math.round((row / Math.max(1, height - 1)) * (across - stroke.length));
    for (const from of [0, width - across]) {
      put(cells, row, from + inset, stroke);
      put(cells, row, from + across - stroke.length - inset, stroke);
    }
  }
  return cells;
};

/** One row of an arrowhead: solid, or two strokes with nothing between. */
function headRow(row: number, tall: number, isUp: boolean): string {
  const width = isUp ? 2 * row + 1 : 2 * (tall - row) - 1;
  const side = strokeOf(tall);
  const isHollow = !isUp && row >= side / 2 && width > 2 * side;
  return isHollow ? '█'.repeat(side) + ' '.repeat(width - 2 * side) + '█'.repeat(side) : '█'.repeat(width);
}

/** Columns that the words between two signs take: tall ones where there are rows enough. */
function roomForWords({ word, detail }: StateShape, height: number): number {
  const tall = height >= 8 ? tallWidth(word, { columns: 1, rows: 1 }) + 4 : 0;
  return Math.max(tall, [...detail].length + 4, [...word].length + 4);
}

/** Two arrowheads with the word between them: solid and pointing up, or hollow and pointing down. */
const pointing =
  (isUp: boolean): Draw =>
  (shape, width, height) => {
    const tall = Math.min(height, Math.floor((width - roomForWords(shape, height)) / 4));
    const cells = blank(width, height, () => ' ');
    putWord(cells, shape, tall > 0 ? 2 * tall : 0);
    for (let row = 0; row < tall; row += 1) {
      const text = headRow(row, tall, isUp);
      const inset = isUp ? tall - 1 - row : row;
      const at = (isUp ? height - tall : 0) + row;
      put(cells, at, inset, text);
      put(cells, at, width - (2 * tall - 1) + inset, text);
    }
    return cells;
  };

/** A box of broken lines: what was there is there no more. */
const back: Draw = (shape, width, height) => {
  const cells = blank(width, height, () => ' ');
  putFrame(cells, true);
  putWord(cells, shape, 2);
  return cells;
};

const SHAPES: Readonly<Record<ShapeKind, Draw>> = {
  ready,
  paused,
  count,
  play,
  breathe,
  doors,
  clean,
  tense,
  missed,
  up: pointing(true),
  down: pointing(false),
  back,
};

/** Exactly `height` lines of `width` columns. */
export const stateShape = (shape: StateShape, width: number, height: number): readonly PaintedLine[] =>
  width < 1 ? [] : SHAPES[shape.kind](shape, width, height).map((row) => line(seg(row.join(''), 'large')));
