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

interface Frame {
  readonly corners: readonly [string, string, string, string];
  readonly across: string;
  readonly upright: string;
}

const THIN: Frame = { corners: ['┌', '┐', '└', '┘'], across: '─', upright: '│' };
const BROKEN: Frame = { corners: ['┌', '┐', '└', '┘'], across: '╌', upright: '╎' };

function putFrame(cells: Cells, { corners, across, upright }: Frame): void {
  const [width, height] = [cells[0]?.length ?? 0, cells.length];
  if (width < 2 || height < 2) return;
  const [a, b, c, d] = corners;
  put(cells, 0, 0, a + across.repeat(width - 2) + b);
  put(cells, height - 1, 0, c + across.repeat(width - 2) + d);
  for (let row = 1; row < height - 1; row += 1) {
    put(cells, row, 0, upright);
    put(cells, row, width - 1, upright);
  }
}

type Draw = (shape: StateShape, width: number, height: number) => Cells;

/** The word alone: nothing presses. */
const ready: Draw = (shape, width, height) => {
  const cells = blank(width, height, () => ' ');
  putWord(cells, shape, 0);
  return cells;
};

/** Two pillars at either side. */
const paused: Draw = (shape, width, height) => {
  const pillars = new Set([0, 1, 4, 5, width - 6, width - 5, width - 2, width - 1]);
  const cells = blank(width, height, (_, column) => (pillars.has(column) && width >= 20 ? '█' : ' '));
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
  const until = 2 + Math.round((width - 4) * (1 - shape.share));
  const cells = blank(width, height, (row, column) => (row > 0 && column >= 2 && column < until ? '░' : ' '));
  putFrame(cells, THIN);
  putWord(cells, shape, 1);
  return cells;
};

const hinge = (row: number, height: number): string => (row === 0 ? '┬' : row === height - 1 ? '┴' : '│');

/** Three doors to choose from, the word above their middle. */
const doors: Draw = ({ word, doors: names = [] }, width, height) => {
  const cells = blank(width, height, () => ' ');
  putFrame(cells, THIN);
  const each = Math.floor((width - 1) / 3);
  names.forEach((name, k) => {
    const [from, to] = [k * each, k === 2 ? width - 1 : (k + 1) * each];
    const said = name.split('\n');
    const rows = height - 2 < said.length ? [`${said[0]} ${said.at(-1)}`] : said;
    rows.forEach((text, row) => {
      const room = to - from - 1;
      const shown = [...text].slice(0, room).join('');
      put(cells, 1 + middle(height - 2, rows.length) + row, from + 1 + middle(room, [...shown].length), shown);
    });
    if (k < 2) for (let row = 0; row < height; row += 1) put(cells, row, to, hinge(row, height));
  });
  if (width >= 20) putCentred(cells, 0, ` ${word} `);
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

/** Water: wave under wave. */
const tense: Draw = (shape, width, height) => {
  const cells = blank(width, height, (row, column) => (shape.early && (row + column) % 2 === 1 ? ' ' : '≈'));
  putWord(cells, shape, 2);
  return cells;
};

/** A trellis of crosses. */
const missed: Draw = (shape, width, height) => {
  const cells = blank(width, height, (row, column) => '╲  ╱╱  ╲'[((row % 2) * 4 + (column % 4)) % 8] ?? ' ');
  putWord(cells, shape, 2);
  return cells;
};

/** One row of an arrowhead: solid, or two strokes with nothing between. */
function headRow(row: number, tall: number, isUp: boolean): string {
  const width = isUp ? 2 * row + 1 : 2 * (tall - row) - 1;
  const isHollow = !isUp && row > 0 && width > 4;
  return isHollow ? `██${' '.repeat(width - 4)}██` : '█'.repeat(width);
}

/** Columns that the words between the arrowheads take: tall ones where there are rows enough. */
function roomForWords({ word, detail }: StateShape, height: number): number {
  const tall = height >= 8 ? tallWidth(word, { columns: 1, rows: 1 }) + 4 : 0;
  return Math.max(tall, [...detail].length + 4, [...`${word} ${detail}`].length + 2);
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
  putFrame(cells, BROKEN);
  putWord(cells, shape, 1);
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
