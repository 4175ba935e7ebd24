/** Ways round a wall, each a thing that can be played: what helped on this line before stands first. */
import { wallFor } from '../../practice/sitting/line-speed.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import type { OfferedWay } from '../../ladder/wall/ways-that-helped.ts';
import type { Passage } from '../../ladder/wall/ways-round.ts';

import type { DrawScreen } from './screen.ts';
import { BLANK, type PaintedLine, fit, line, seg, toHeight, wrapped } from '../paint.ts';

const passageWords = ({ bpm, repetitions, say }: Passage): string =>
  `${repetitions > 1 ? `${repetitions} × ` : ''}${say} at ${bpmText(bpm)}`;

const memory = ({ helpedOn, tried }: OfferedWay): string => {
  if (helpedOn.length > 0) return `helped on ${helpedOn.at(-1)}`;
  return tried > 0 ? `tried ${tried} ${tried === 1 ? 'time' : 'times'}` : '';
};

function wayLines(way: OfferedWay, isHere: boolean, columns: number): readonly PaintedLine[] {
  const head = line(
    seg(` ${isHere ? '▶' : ' '} ${way.title}`, isHere ? 'now' : 'strong'),
    seg(`  ${memory(way)}`, 'dim'),
  );
  if (!isHere) return [head];
  const steps = way.passages.map((passage) => line(seg(`      ${passageWords(passage)}`, 'dim')));
  return [head, ...wrapped(`    ${way.why}`, 'plain', columns), ...steps];
}

/** So many lines, the chosen way whole among them; how many lines are above and below is said. */
function inSight(each: readonly (readonly PaintedLine[])[], row: number, room: number): readonly PaintedLine[] {
  const lines = each.flat();
  if (lines.length <= room) return toHeight(lines, room);
  const start = each.slice(0, row).flat().length;
  const end = start + (each[row]?.length ?? 1);
  const from = Math.max(0, Math.min(start, end - (room - 1)));
  const below = Math.max(0, lines.length - from - (room - 1));
  const words = [...(from > 0 ? [`↑ ${from} lines more`] : []), ...(below > 0 ? [`↓ ${below} lines more`] : [])];
  return [...toHeight(lines.slice(from), room - 1), line(seg(`   ${words.join('   ')}`, 'dim'))];
}

export const waysScreen: DrawScreen<'ways'> = ({ known, view }, { columns, rows, foot }) => {
  const { bpm, offers, row } = view.ways;
  const wall = wallFor(known, view.work.practice);
  const head = wall
    ? wall.sentence
    : `No wall is seen on this line; these are ways to work at ${bpmText(bpm)} all the same.`;
  const each = offers.map((way, index) => wayLines(way, index === row, columns));
  const said = [line(seg(' Ways round', 'strong')), ...wrapped(head, 'plain', columns), BLANK];
  const end = [
    ...wrapped('Common practice. The program remembers which helped. Marks do not count on the way.', 'dim', columns),
    foot,
  ];
  const list = inSight(each, row, rows - said.length - end.length);
  return toHeight([...said, ...list, ...end], rows).map((painted) => fit(painted, columns));
};
