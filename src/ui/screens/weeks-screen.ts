/** The weeks: share of clean repetitions, the lines, and which keys and articulations were covered. */
import { drawReport } from '../../review/report-text.ts';
import { reportOf } from '../../review/weeks-report.ts';
import type { KnownSoFar } from '../../practice/stand.ts';
import type { DrawScreen, On } from './screen.ts';
import { BLANK, fit, line, seg, toHeight } from '../paint.ts';

const WEEKS = 8;

/** Everything there is to show; longer than a screen for a busy player. */
const weeksLines = ({ lines, exercises, today }: KnownSoFar, columns: number): readonly string[] =>
  drawReport(reportOf({ lines: new Map(Object.entries(lines)) }, exercises, today, WEEKS), columns - 1);

/** The last line shows: there is nothing further down. */
export const isAtEndOfWeeks = ({ known, view }: On<'weeks'>, columns: number, rows: number): boolean =>
  view.scrolled >= weeksLines(known, columns).length - (rows - 2);

export const weeksScreen: DrawScreen<'weeks'> = ({ known, view }, { columns, rows, foot }) => {
  const all = weeksLines(known, columns);
  const room = rows - 2;
  const from = Math.max(0, Math.min(view.scrolled, all.length - room));
  const shown = all
    .slice(from, from + room)
    .map((text) => line(seg(` ${text}`, text.startsWith('  ') ? 'plain' : 'strong')));
  const more = all.length > from + room ? line(seg(` ↓ ${all.length - from - room} lines more`, 'dim')) : BLANK;
  return toHeight([...toHeight(shown, room), more, foot], rows).map((painted) => fit(painted, columns));
};
