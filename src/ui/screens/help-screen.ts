import { CAUTION } from '../../plan/ease/caution.ts';
import { keySign } from '../components/foot-line.ts';
import { type Circumstance, type KeyRow, type Place, rowsFor } from '../keys.ts';
import { BLANK, type PaintedLine, line, seg, wrapped } from '../paint.ts';

const TITLES: Readonly<Record<Place, string>> = {
  today: 'Keys on the Today screen',
  exercises: 'Keys in the list of exercises',
  practice: 'Keys while practising',
  block: 'Keys in a block without a ladder',
  end: 'Keys at the end of the sitting',
  ways: 'Keys in the list of ways round a wall',
  weeks: 'Keys on the weeks',
  settings: 'Keys on the settings',
};

const keysOf = ({ keys, sign }: KeyRow): string => (keys.length > 3 && sign ? sign : keys.map(keySign).join(' or '));

/** What each mark means, which key does what, and the usual cautions. */
export function helpScreen(
  rows: readonly KeyRow[],
  place: Place,
  now: readonly Circumstance[],
  columns: number,
): readonly PaintedLine[] {
  const keys = rowsFor(rows, place, now).map((row) => line(seg(`  ${keysOf(row).padEnd(18)}  `, 'key'), seg(row.help)));
  return [
    line(seg(` ${TITLES[place]}`, 'strong')),
    ...keys,
    BLANK,
    ...wrapped(`Rest about as long as you play on brass. ${CAUTION} With headphones, start softly.`, 'dim', columns),
    line(seg(' Any key goes back.', 'dim')),
  ];
}
