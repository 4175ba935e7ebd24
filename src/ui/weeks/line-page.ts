/** One line over time, its last sittings, and what helped round its walls. */
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { halfYearOf, linesKnown, standingHere } from '../../practice/weeks/weeks-lines.ts';
import type { Stand } from '../../practice/stand.ts';
import { type LineSitting, lastSittings, weeksFlat } from '../../review/speed-weeks.ts';
import type { Standing } from '../../review/standing.ts';
import { waysSentence, waysTried } from '../../review/ways-of-line.ts';
import { nameOf, saidOf } from '../../review/weeks-sentences.ts';
import { MARK_SIGNS } from '../components/mark-signs.ts';
import { BLANK, type PaintedLine, beside, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import { type Canvas, type DrawScreen, keyOn } from '../screens/screen.ts';
import { dayAndMonth } from './date-words.ts';
import { AXIS, speedChart } from './speed-chart.ts';
import { weeksHead } from './weeks-head.ts';

const WEEKS = 26;
/** At the right of the chart: what the wall and the target are called. */
const LABEL = 12;
const SITTINGS_FROM = 110;
const SITTINGS_WIDTH = 32;

const signs = (mark: Mark, count: number): string => MARK_SIGNS[mark].repeat(Math.min(count, 6));

/** One sitting: each tempo in the order of its first mark; clean, tense and missed ones of it together. */
function sittingLine({ day, tallies }: LineSitting): PaintedLine {
  const marks = tallies.flatMap(({ bpm, clean, tense, missed }) => [
    seg(`  ${bpmText(bpm)} `, 'dim'),
    seg(signs('clean', clean), 'clean'),
    seg(signs('tense', tense), 'tense'),
    seg(signs('missed', missed), 'missed'),
  ]);
  return line(seg(` ${dayAndMonth(day).padStart(6)}`, 'plain'), ...marks);
}

/** What to make of it, in a sentence or two. */
function about(stand: Stand, standing: Standing, canvas: Canvas): string {
  const { wall, gain, before } = standing;
  const weeks = weeksFlat(halfYearOf(stand.known, standing));
  const round = waysSentence(waysTried(stand.known, standing, stand.known.records));
  if (wall) return `${wall.sentence} ${keyOn(canvas, 'weeks', 'way')}: ways round it. ${round}`.trim();
  if (gain !== null && before && Math.round(gain) > 0)
    return `${Math.round(before.bpm)} to ${saidOf(standing)} in eight weeks: leave it as it is. ${round}`.trim();
  const flat = weeks >= 2 ? ` About there for ${weeks} weeks.` : '';
  return `Safe tempo: ${saidOf(standing)}.${flat} ${round}`.trim();
}

const MISSING = 'That line is not there any more.';

const KEY = '█ clean 9 times in 10  ░ how sure  ▞ wall  gap: not played';

export const linePage: DrawScreen<'weeks'> = (stand, canvas) => {
  const { columns, rows, foot } = canvas;
  const known = linesKnown(stand.known);
  const standing = standingHere(stand.known, stand.view);
  if (!standing) return toHeight([weeksHead('line', canvas), ...wrapped(MISSING, 'plain', columns)], rows);
  const said = stand.answer ? stand.answer.sentence : about(stand, standing, canvas);
  const words = wrapped(said, 'plain', columns, 3);
  const isWide = columns >= SITTINGS_FROM;
  const left = isWide ? columns - SITTINGS_WIDTH : columns;
  const wide = Math.max(1, Math.min(4, Math.floor((left - AXIS - LABEL) / WEEKS)));
  const weeks = halfYearOf(stand.known, standing).slice(-Math.max(1, left - AXIS - LABEL));
  const below = isWide ? 0 : 3;
  const height = rows - words.length - below - 5;
  const chart = speedChart(weeks, standing, height, wide);
  const sittings = lastSittings(known, standing, isWide ? height : below).map(sittingLine);
  const head = weeksHead('line', canvas, nameOf(standing));
  const body = isWide
    ? beside(
        { lines: chart, width: left },
        { lines: [line(seg(' Last sittings', 'strong')), ...sittings], width: SITTINGS_WIDTH },
      )
    : [...chart, ...sittings];
  return toHeight(
    [head, BLANK, ...toHeight(body, height + below), line(seg(` ${KEY}`, 'dim')), ...words, BLANK, foot],
    rows,
  ).map((one) => fit(one, columns));
};
