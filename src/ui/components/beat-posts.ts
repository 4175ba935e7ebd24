/**
 * The beat being heard: one post for each beat of the bar, the heard one standing, the first of the bar the tallest.
 * The groups of a meter such as 2+2+3 stand apart, and the first post of each is taller than those that follow.
 */
import { type PaintedLine, seg } from '../paint.ts';

export interface BeatView {
  /** Each beat of the bar: whether a group begins with it. */
  readonly beats: readonly boolean[];
  /** From 0; null when nothing is heard. */
  readonly heard: number | null;
}

const WIDEST_POST = 8;

/** Columns before a post; none before the first. */
const gapBefore = (startsGroup: boolean, beat: number, gap: number): number =>
  beat === 0 ? 0 : startsGroup ? gap * 3 : gap;

const heightOf = (startsGroup: boolean, beat: number, height: number): number =>
  beat === 0 ? height : Math.max(1, height - (startsGroup ? 1 : Math.max(1, Math.floor(height / 2))));

/** `height` lines, at most `width` columns. Where every beat begins a group, none stands apart. */
export function beatFigure({ beats, heard }: BeatView, width: number, height: number): readonly PaintedLine[] {
  const grouped = beats.every((starts) => starts) ? beats.map((_, beat) => beat === 0) : beats;
  const gaps = grouped.reduce((sum, starts, beat) => sum + gapBefore(starts, beat, 1), 0);
  const gap = beats.length * 2 + gaps <= width ? 1 : 0;
  const post = Math.max(1, Math.min(WIDEST_POST, Math.floor((width - gaps * gap) / beats.length)));
  return Array.from({ length: height }, (_, row) => {
    const fromBottom = height - row;
    return grouped.slice(0, width).flatMap((starts, beat) => {
      const stands = beat === heard && fromBottom <= heightOf(starts, beat, height);
      const foot = fromBottom === 1 ? '▁' : ' ';
      return [
        seg(' '.repeat(gapBefore(starts, beat, gap))),
        seg((stands ? '█' : foot).repeat(post), stands ? 'large' : 'dim'),
      ];
    });
  });
}
