/** One line over time: a column for each week, what is clean nine times in ten, how sure, the wall, the target. */
import type { Bpm } from '../../common/units.ts';
import type { SpeedWeek } from '../../review/speed-weeks.ts';
import type { Standing } from '../../review/standing.ts';
import { type PaintedLine, type Tone, line, seg } from '../paint.ts';
import { monthOf } from './date-words.ts';

/** Figures and the axis. */
export const AXIS = 7;

interface Scale {
  readonly low: Bpm;
  readonly high: Bpm;
  readonly rows: number;
}

/** Equal ratios are equally high; row 0 is the uppermost. */
const rowOf = (bpm: Bpm, { low, high, rows }: Scale): number =>
  Math.round((1 - Math.log(bpm / low) / Math.log(high / low)) * (rows - 1));

const tempoAt = (row: number, { low, high, rows }: Scale): Bpm =>
  low * (high / low) ** (1 - row / Math.max(1, rows - 1));

/** From the slowest to the fastest that is known, the wall with it; the target where it is not far. */
function scaleOf(weeks: readonly SpeedWeek[], { start, target, wall }: Standing, rows: number): Scale {
  const known = weeks.flatMap(({ speed }) => (speed ? [speed.low, speed.high] : []));
  const low = Math.min(start, ...known);
  const top = Math.max(start * 1.06, ...known, wall?.bpm ?? 0);
  return { low, high: target <= top * 1.3 ? Math.max(top, target) : top, rows };
}

function signAt({ speed }: SpeedWeek, row: number, scale: Scale): { text: string; tone: Tone } | null {
  if (!speed || speed.said.known === 'too little') return null;
  if (row === rowOf(speed.bpm, scale)) return { text: '█', tone: 'now' };
  const isBetween = row >= rowOf(speed.high, scale) && row <= rowOf(speed.low, scale);
  return isBetween ? { text: '░', tone: 'clean' } : null;
}

/** What stands behind the weeks in a row: the wall, the target, nothing. */
function behind(row: number, scale: Scale, { wall, target }: Standing): { text: string; tone: Tone; said: string } {
  if (wall && row === rowOf(wall.bpm, scale))
    return { text: '▞', tone: 'missed', said: ` wall ${Math.round(wall.bpm)}` };
  if (target <= scale.high && row === rowOf(target, scale))
    return { text: '┄', tone: 'target', said: ` target ${Math.round(target)}` };
  return { text: ' ', tone: 'plain', said: '' };
}

/** Exactly so many rows, the months under them; `wide` columns to a week. */
export function speedChart(
  weeks: readonly SpeedWeek[],
  standing: Standing,
  rows: number,
  wide: number,
): readonly PaintedLine[] {
  const far = scaleOf(weeks, standing, rows - 1).high < standing.target;
  const scale = scaleOf(weeks, standing, Math.max(2, rows - 1 - (far ? 1 : 0)));
  const drawn = Array.from({ length: scale.rows }, (_, row) => {
    const back = behind(row, scale, standing);
    const figure = `${Math.round(tempoAt(row, scale))}`.padStart(5);
    const cells = weeks.map((week) => {
      const sign = signAt(week, row, scale) ?? back;
      return seg(sign.text.repeat(wide), sign.tone);
    });
    return line(seg(`${figure} │`, 'dim'), ...cells, seg(back.said, back.tone));
  });
  const target = far
    ? [line(seg(`${Math.round(standing.target)}`.padStart(5)), seg(' ┊ target, further up', 'dim'))]
    : [];
  return [...target, ...drawn, months(weeks, wide)];
}

/** Each month where its first week stands. */
function months(weeks: readonly SpeedWeek[], wide: number): PaintedLine {
  let text = '';
  weeks.forEach(({ from }, index) => {
    const isNew = index === 0 || monthOf(weeks[index - 1]!.from) !== monthOf(from);
    if (isNew && text.length <= index * wide) text = `${text.padEnd(index * wide)}${monthOf(from)} `;
  });
  return line(seg(`${' '.repeat(AXIS - 1)}└${text}`, 'dim'));
}
