/** The end of a sitting. */
import type { Stand } from '../../practice/stand.ts';
import { BLANK, type PaintedLine, fit, line, seg, toHeight } from '../paint.ts';
import { sittingStrip, viewOf } from './sitting.ts';

export function endScreen(stand: Stand, foot: PaintedLine, columns: number, rows: number): readonly PaintedLine[] {
  const view = viewOf(stand);
  if (!view) return toHeight([foot], rows);
  const body = [
    line(seg(' The sitting is over', 'strong')),
    BLANK,
    line(seg(` ${view.played} played of ${view.total}`)),
    BLANK,
    ...view.blocks.filter(({ isRest }) => !isRest).map(({ title, state }) => line(seg(`   ${state === 'done' ? '●' : '○'} ${title}`))),
    BLANK,
    line(seg(` ${view.question}`, 'strong')),
  ];
  return toHeight([...toHeight(body, rows - 2), sittingStrip(view, columns), foot], rows).map((painted) => fit(painted, columns));
}
