/** What was played, week by week and day by day, by kind of work; how tense it felt, what was noted, the load. */
import { weekdayOf } from '../../common/days.ts';
import { harmless } from '../../common/harmless-text.ts';
import { KINDS, type Kind } from '../../plan/routine/exercise.ts';
import { weekLoad } from '../../plan/today/week-load.ts';
import { type MinutesPlayed, lastNotes, minutesByDays, minutesByWeek } from '../../review/minutes.ts';
import { BLANK, type PaintedLine, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import type { DrawScreen } from '../screens/screen.ts';
import { dayAndMonth } from './date-words.ts';
import { weeksHead } from './weeks-head.ts';

const WEEKS = 8;
const DAYS = 7;
const CELL = 7;
const NAME = 14;
const WORDS: Readonly<Record<Kind, string>> = {
  body: 'body',
  sound: 'sound',
  flexibility: 'lips',
  technique: 'finger',
  articulation: 'tongue',
  study: 'study',
  music: 'music',
};

const figure = (minutes: number): string => (minutes === 0 ? '·' : minutes < 1 ? '<1' : `${Math.round(minutes)}`);

/** A bar as long as the minutes, where there is room for one. */
const bar = (minutes: number, most: number, columns: number): string =>
  '█'.repeat(most === 0 ? 0 : Math.round((minutes / most) * columns));

const tensionText = (tension: number | null): string => (tension === null ? '–' : tension.toFixed(1));

function row(name: string, played: MinutesPlayed, most: number, columns: number): PaintedLine {
  const room = columns - NAME - CELL * (KINDS.length + 2) - 3;
  return line(
    seg(` ${name.padEnd(NAME - 1)}`, 'plain'),
    seg(figure(played.total).padStart(CELL), 'strong'),
    ...KINDS.map((kind) => seg(figure(played.byKind[kind]).padStart(CELL), played.byKind[kind] ? 'plain' : 'dim')),
    seg(tensionText(played.tension).padStart(CELL), 'tense'),
    seg(room > 6 ? `  ${bar(played.total, most, Math.min(room, 40))}` : '', 'clean'),
  );
}

const headLine = (what: string): PaintedLine =>
  line(
    seg(` ${what.padEnd(NAME - 1)}`, 'strong'),
    seg(['min', ...KINDS.map((kind) => WORDS[kind]), 'tense'].map((word) => word.padStart(CELL)).join(''), 'dim'),
  );

const mostOf = (all: readonly MinutesPlayed[]): number => Math.max(0, ...all.map(({ total }) => total));

const SCALE = 'min: minutes of blocks, rests left out. tense: mean of your answers, 0 none to 4 very.';

export const minutesPage: DrawScreen<'weeks'> = ({ known, answer }, canvas) => {
  const { columns, rows, foot } = canvas;
  const weeks = minutesByWeek(known, known.today, WEEKS);
  const days = minutesByDays(known, known.today, DAYS);
  const load = weekLoad(known.today, known.records, 0);
  const isLow = rows < 26;
  const notes = lastNotes(known.records, isLow ? 1 : 6);
  const said = [
    ...wrapped(answer?.sentence ?? load.warning ?? `Load: ${load.line}.`, 'plain', columns, 2),
    ...notes.map(({ day, text }) => line(seg(` ${dayAndMonth(day).padStart(6)}  `, 'dim'), seg(harmless(text, 300)))),
  ];
  const tables = [
    headLine('Week from'),
    ...weeks.map((one) => row(dayAndMonth(one.from).padStart(6), one, mostOf(weeks), columns)),
    ...(isLow ? [] : [BLANK]),
    headLine('Day'),
    ...days
      .toReversed()
      .map((one) => row(`${weekdayOf(one.from).slice(0, 3)} ${dayAndMonth(one.from)}`, one, mostOf(days), columns)),
  ];
  const room = rows - said.length - (isLow ? 3 : 4);
  return toHeight(
    [
      weeksHead('minutes', canvas),
      ...(isLow ? [] : [BLANK]),
      ...toHeight(tables, room),
      ...said,
      line(seg(` ${SCALE}`, 'dim')),
      foot,
    ],
    rows,
  ).map((one) => fit(one, columns));
};
