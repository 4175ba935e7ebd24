/** The grid of the line on the stand, by the names of its cells. */
import { gridNow } from '../../practice/sitting/what-follows.ts';
import type { GridPlace, Stand, Work } from '../../practice/stand.ts';
import type { GridView } from '../components/turn-grid.ts';

/** The cell under the finger by its names. */
export function gridView(stand: Stand, work: Work, at: GridPlace | null): GridView {
  const grid = gridNow(stand, work);
  const { key, line } = work.practice;
  const [under, way] = at ? [grid.keys[at.key], grid.articulations[at.articulation]] : [];
  const finger = under === undefined || way === undefined ? null : { key: under, articulation: way };
  return { ...grid, now: { key, articulation: line.articulation }, finger };
}
