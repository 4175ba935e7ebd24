import { CAUTION } from '../../plan/ease/caution.ts';
import { keySign } from '../components/foot-line.ts';
import { type Circumstance, type KeyRow, type Place, rowsFor } from '../keys.ts';
import { BLANK, type PaintedLine, line, seg, toHeight, widthOf, wrapped } from '../paint.ts';

const TITLES: Readonly<Record<Place, string>> = {
  first: 'Three questions',
  today: 'Keys on the Today screen',
  exercises: 'Keys in the list of exercises',
  practice: 'Keys while practising',
  grid: 'Keys on the grid',
  block: 'Keys in a block without a ladder',
  end: 'Keys at the end of the sitting',
  ways: 'Keys in the list of ways round a wall',
  weeks: 'Keys on the weeks',
  settings: 'Keys on the settings',
  list: 'Keys in the list by hand, while it is put in order',
};

const keysOf = ({ keys, sign }: KeyRow): string => (keys.length > 3 && sign ? sign : keys.map(keySign).join(' or '));

const keyLine = (row: KeyRow): PaintedLine => line(seg(`  ${keysOf(row).padEnd(18)}  `, 'key'), seg(row.help));

/** One key after the other, as words of a text. */
function flowing(rows: readonly KeyRow[], columns: number, say: (row: KeyRow) => string): readonly PaintedLine[] {
  const lines: PaintedLine[] = [];
  for (const row of rows) {
    const entry = [seg(` ${keysOf(row)} `, 'key'), seg(`${say(row)} `)];
    const last = lines.at(-1);
    if (last && widthOf(last) + widthOf(entry) < columns) lines[lines.length - 1] = [...last, ...entry];
    else lines.push(entry);
  }
  return lines;
}

/** In a column where there is room, else flowing, else their short names; what is left out is counted. */
function keyLines(rows: readonly KeyRow[], columns: number, room: number): readonly PaintedLine[] {
  const listed = rows.map(keyLine);
  const layouts = [
    listed,
    flowing(rows, columns, ({ help }) => help),
    flowing(rows, columns, ({ short, help }) => short || (/^[^,;]*/.exec(help)?.[0] ?? help)),
  ];
  const isRight = (lines: readonly PaintedLine[]): boolean =>
    lines.length <= room && lines.every((one) => widthOf(one) <= columns);
  const found = layouts.find(isRight);
  if (found) return found;
  const short = layouts.at(-1) ?? [];
  return [...short.slice(0, Math.max(0, room - 1)), line(seg(' A larger window shows more keys.', 'dim'))];
}

/** What each mark means, which key does what, and the usual cautions, which are always there whole. */
export function helpScreen(
  rows: readonly KeyRow[],
  place: Place,
  now: readonly Circumstance[],
  columns: number,
  height: number,
): readonly PaintedLine[] {
  const caution = `Rest about as long as you play on brass. ${CAUTION} With headphones, start softly.`;
  const end = [...wrapped(caution, 'dim', columns, 20), line(seg(' Any key goes back.', 'dim'))];
  const keys = keyLines(rowsFor(rows, place, now), columns, height - end.length - 1);
  const air = height > end.length + keys.length + 1 ? [BLANK] : [];
  return toHeight([line(seg(` ${TITLES[place]}`, 'strong')), ...keys, ...air, ...end], height);
}
