/** What each line has held: how fast, when, what is known now, and how it moves. */
import { lineName } from '../../ladder/line.ts';
import { withSigns } from '../../music/pitch/note-names.ts';
import { notesPerSecond } from '../../music/time/meter.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { monthsGain, standingsShown } from '../../practice/weeks/weeks-lines.ts';
import type { KnownSoFar } from '../../practice/stand.ts';
import type { Standing } from '../../review/standing.ts';
import { BLANK, type PaintedLine, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import type { DrawScreen } from '../screens/screen.ts';
import { cell } from '../text-width.ts';
import { dayAndMonth } from './date-words.ts';
import { nowText } from './lines-page.ts';
import { weeksHead } from './weeks-head.ts';

/** Cursor, best, notes a second, day, now, how sure, target, four weeks. */
const FIXED = 1 + 7 + 7 + 8 + 6 + 9 + 7 + 6;
const WAY = 13;

const signed = (gain: number | null): string => {
  if (gain === null) return '–';
  const rounded = Math.round(gain);
  return rounded === 0 ? '= 0' : `${rounded > 0 ? '↑' : '↓'} ${Math.abs(rounded)}`;
};

const interval = ({ now }: Standing): string =>
  now.said.known === 'too little' ? '' : `${Math.round(now.low)}-${Math.round(now.high)}`;

function row(known: KnownSoFar, standing: Standing, columns: number, isHere: boolean): PaintedLine {
  const { title, line: of, target } = standing;
  const history = known.lines[lineName(of)];
  const best = history?.best ?? null;
  const notes = best && history ? notesPerSecond(best.bpm, history.notesPerBeat).toFixed(1) : '–';
  const tone = isHere ? 'now' : 'plain';
  return line(
    seg(`${isHere ? '▶' : ' '}${cell(title, Math.max(6, columns - FIXED - WAY))}`, tone),
    seg(cell(`${withSigns(of.key)} ${of.articulation}`, WAY), tone),
    seg((best ? bpmText(best.bpm) : '–').padStart(7), 'best'),
    seg(notes.padStart(7), 'plain'),
    seg((best ? dayAndMonth(best.day) : '–').padStart(8), 'dim'),
    seg(nowText(standing).padStart(6), 'strong'),
    seg(interval(standing).padStart(9), 'clean'),
    seg(`${Math.round(target)}`.padStart(7), 'dim'),
    seg(signed(monthsGain(known, standing)).padStart(6), 'plain'),
  );
}

function heads(columns: number): PaintedLine {
  const names = ' '.repeat(1 + Math.max(6, columns - FIXED - WAY) + WAY);
  const words = ['best', 'notes/s', 'held', 'now', 'how sure', 'target', '4 wk'];
  const widths = [7, 8, 7, 6, 9, 7, 6];
  return line(seg(names + words.map((word, k) => word.padStart(widths[k] ?? 0)).join(''), 'dim'));
}

const SAID = 'A best is a rung that was held. now: clean 9 times in 10; how sure: its 80 % interval.';

/** The rows are those of the first page, in their order: what is looked for there is looked for here. */
export const bestsPage: DrawScreen<'weeks'> = ({ known, view, answer }, canvas) => {
  const { columns, rows, foot } = canvas;
  const all = standingsShown(known, view);
  const here = all[view.row];
  const said = wrapped(answer?.sentence ?? SAID, 'dim', columns, 2);
  const room = Math.max(1, rows - said.length - 4);
  const from = Math.max(0, Math.min(view.row - Math.floor(room / 2), all.length - room));
  const lines = all.slice(from, from + room).map((one) => row(known, one, columns, one === here));
  const part = all.length > room ? ` ${from + 1} to ${from + lines.length} of ${all.length}` : '';
  return toHeight(
    [
      weeksHead('bests', canvas),
      part ? line(seg(part, 'dim')) : BLANK,
      heads(columns),
      ...toHeight(lines, room),
      ...said,
      foot,
    ],
    rows,
  ).map((painted) => fit(painted, columns));
};
