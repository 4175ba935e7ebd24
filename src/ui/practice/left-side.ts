/** The left side of the practice screen: what to read before a repetition, the ladder, and the grid under it. */
import { rotationOf } from '../../plan/rotation/key-rotation.ts';
import type { Stand, Work } from '../../practice/stand.ts';
import { ladderFigure, type LadderView } from '../components/ladder-figure.ts';
import { gridHeight, turnGrid } from '../components/turn-grid.ts';
import { BLANK, type PaintedLine } from '../paint.ts';
import { gridView } from './grid-of-line.ts';
import { largeWords, wordsToRead } from './large-words.ts';

/** A ladder of fewer rows says nothing. */
const LEAST_LADDER = 6;

/** The grid where cells come out of the hat and there is room for the ladder too; nothing elsewhere. */
function gridBelow(stand: Stand, work: Work, columns: number, rows: number): readonly PaintedLine[] {
  if (rotationOf(work.practice.exercise).order !== 'from the hat') return [];
  const view = gridView(stand, work, null);
  const height = Math.min(gridHeight(view), rows - LEAST_LADDER - 1);
  return height < 3 ? [] : [BLANK, ...turnGrid(view, columns, height)];
}

/** Exactly so many rows. The grid keeps its place; tall letters give way to a bar where the ladder needs the room. */
export function leftSide(
  stand: Stand,
  work: Work,
  ladder: LadderView,
  columns: number,
  rows: number,
): readonly PaintedLine[] {
  const grid = gridBelow(stand, work, columns, rows);
  const room = rows - grid.length - LEAST_LADDER;
  const words = largeWords(wordsToRead(stand.known, work.practice), columns, Math.max(2, room));
  return [...words, ...ladderFigure(ladder, columns, rows - grid.length - words.length), ...grid];
}
