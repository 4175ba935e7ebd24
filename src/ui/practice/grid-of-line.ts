/** The grid of the line on the stand, as a drawing: beside the ladder while cells come out of the hat. */
import { rotationOf } from '../../plan/rotation/key-rotation.ts';
import { gridNow } from '../../practice/sitting/what-follows.ts';
import type { GridPlace, Stand, Work } from '../../practice/stand.ts';
import { type GridView, gridHeight, turnGrid } from '../components/turn-grid.ts';
import { BLANK, type PaintedLine } from '../paint.ts';

/** The cell under the finger by its names. */
export function gridView(stand: Stand, work: Work, at: GridPlace | null): GridView {
  const grid = gridNow(stand, work);
  const { key, line } = work.practice;
  const [under, way] = at ? [grid.keys[at.key], grid.articulations[at.articulation]] : [];
  const finger = under === undefined || way === undefined ? null : { key: under, articulation: way };
  return { ...grid, now: { key, articulation: line.articulation }, finger };
}

/** A ladder of fewer rows says nothing. */
const LEAST_LADDER = 6;

/** The grid under the ladder where cells come out of the hat and both have room; nothing elsewhere. */
export function gridBelow(stand: Stand, work: Work, columns: number, rows: number): readonly PaintedLine[] {
  if (rotationOf(work.practice.exercise).order !== 'from the hat') return [];
  const view = gridView(stand, work, null);
  const height = Math.min(gridHeight(view), rows - LEAST_LADDER - 1);
  return height < 3 ? [] : [BLANK, ...turnGrid(view, columns, height)];
}
