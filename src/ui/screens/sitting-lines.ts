/** What a running routine adds to a screen: where the sitting is, as a row of bars, and what comes next. */
import type { RunView } from '../../plan/run/run-view.ts';
import type { KeyOf } from '../practice/practice-state.ts';
import { type PaintedLine, type Segment, fit, line, seg, widthOf } from '../paint.ts';

const FILLS = { done: '━', now: '█', open: '─', skipped: '┄' } as const;

/** The whole sitting in one line: a piece for each block, as long as its minutes; the present one is thick. */
export function sittingStrip({ blocks }: RunView, width: number): PaintedLine {
  const total = blocks.reduce((sum, { minutes }) => sum + minutes, 0) || 1;
  const room = width - blocks.length;
  return fit(
    blocks.flatMap(({ state, minutes, isRest }): readonly Segment[] => {
      const columns = Math.max(1, Math.floor((minutes / total) * room));
      const fill = isRest && state !== 'now' ? ' ' : FILLS[state];
      return [seg(fill.repeat(columns), state === 'now' ? 'now' : 'dim'), seg(' ')];
    }),
    width,
  );
}

export const isTimeUp = ({ phase }: RunView): boolean => phase === 'over' || phase === 'playing on';

/** Columns that what comes next is left with, so that one knows it again. */
const NEXT_KNOWN = 20;

/** 'Time is up: n goes on, PageDown too  next: Thirds, 5 min': the first of it is seen at every size. */
export function timeIsUp(view: RunView, width: number, keyOf: KeyOf): PaintedLine {
  const loud = seg(` Time is up: ${keyOf('next-block')} goes on`, 'now');
  const rest = view.phase === 'playing on' ? '  what you play counts' : '';
  const pedal = seg(`, ${keyOf('pedal-forward')} too`, 'now');
  const hasRoom = widthOf(line(loud, pedal, seg(rest))) + NEXT_KNOWN <= width;
  return fit(line(loud, ...(hasRoom ? [pedal] : []), seg(rest), seg(`  ${view.next}`, 'dim')), width);
}

/** 'Fingers · 4:32 of 8:00 left · next: Thirds, 5 min' */
export function sittingLine(view: RunView, width: number, keyOf: KeyOf): PaintedLine {
  if (isTimeUp(view)) return timeIsUp(view, width, keyOf);
  const next = view.nextMaterial ? `${view.next} (get ${view.nextMaterial})` : view.next;
  const count = view.count ? ` · ${view.count}` : '';
  return fit(line(seg(` ${view.left}`, 'now'), seg(` left of ${view.of}${count}  `), seg(next, 'dim')), width);
}
