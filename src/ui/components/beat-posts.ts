/**
 * The beat being heard: one post for each beat of the bar, the heard one standing, the first of the bar the tallest.
 */
import { type PaintedLine, seg } from '../paint.ts';

export interface BeatView {
  readonly beats: number;
  /** From 0; null when nothing is heard. */
  readonly heard: number | null;
}

/** `height` lines, at most `width` columns. */
export function beatFigure({ beats, heard }: BeatView, width: number, height: number): readonly PaintedLine[] {
  const gap = beats * 3 - 1 <= width ? 1 : 0;
  const post = Math.max(1, Math.min(8, Math.floor((width + gap) / beats) - gap));
  return Array.from({ length: height }, (_, row) => {
    const fromBottom = height - row;
    return Array.from({ length: beats }, (__, beat) => {
      const tall = beat === 0 ? height : Math.max(1, height - 1);
      const stands = beat === heard && fromBottom <= tall;
      const foot = fromBottom === 1 ? '▁' : ' ';
      return [seg((stands ? '█' : foot).repeat(post), stands ? 'now' : 'dim'), seg(' '.repeat(gap))];
    }).flat();
  });
}
