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

export const waysScreen: DrawScreen<'ways'> = ({ known, view }, { columns, rows, foot }) => {
  const { bpm, offers, row } = view.ways;
  const wall = wallFor(known, view.work.practice);
  const head = wall
    ? wall.sentence
    : `No wall is seen on this line; these are ways to work at ${bpmText(bpm)} all the same.`;
  const lines = offers.flatMap((way, index) => [...wayLines(way, index === row, columns)]);
  const said = [
    line(seg(' Ways round', 'strong')),
    ...wrapped(head, 'plain', columns),
    BLANK,
    ...toHeight(lines, rows - (columns < 90 ? 8 : 6)),
    ...wrapped('Common practice; which helps you is remembered. Marks do not count on the way.', 'dim', columns),
    BLANK,
    foot,
  ];
  return toHeight(said, rows).map((painted) => fit(painted, columns));
};
