import { keySign } from '../components/foot.ts';
import { type Circumstance, type KeyRow, type Place, rowsFor } from '../keys.ts';
import { BLANK, type PaintedLine, line, seg } from '../paint.ts';

const CAUTIONS: readonly string[] = [
  'Rest about as long as you play on brass; stop on pain, numbness or tingling and see a licensed',
  'clinician or your teacher: this program gives no medical advice. With headphones, start softly.',
];

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

/** What each mark means, which key does what, and the usual cautions. */
export function helpScreen(rows: readonly KeyRow[], place: Place, now: readonly Circumstance[]): readonly PaintedLine[] {
  const keys = rowsFor(rows, place, now).map((row) =>
    line(seg(`  ${row.keys.map(keySign).join(' or ').padEnd(18)}`, 'key'), seg(row.help)),
  );
  return [
    line(seg(` ${TITLES[place]}`, 'strong')),
    ...keys,
    BLANK,
    ...CAUTIONS.map((sentence) => line(seg(` ${sentence}`, 'dim'))),
    line(seg(' Any key goes back.', 'dim')),
  ];
}
