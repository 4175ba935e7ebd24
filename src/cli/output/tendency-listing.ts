/** The map of tendencies as lines: the lowest note at the bottom, as on the stave. */
import type { Cents } from '../../common/units.ts';
import type { NoteOnMap } from '../../review/tendencies.ts';
import { CAUTION, signed } from './heard-listing.ts';
import { textTable } from './text-table.ts';

/** Cents that one sign is wide, and signs on each side of the note. */
const WIDE = 5;
const SIDE = 8;

const placeOf = (cents: Cents): number => SIDE + Math.max(-SIDE, Math.min(SIDE, Math.round(cents / WIDE)));

/** '·····|··o·e': in tune is the line, o where it lies, e where it ends when that is elsewhere. */
export function tendencyLine({ cents, end }: Pick<NoteOnMap, 'cents' | 'end'>): string {
  const signs = Array.from({ length: 2 * SIDE + 1 }, (_, i): string => (i === SIDE ? '|' : '·'));
  signs[placeOf(end)] = 'e';
  signs[placeOf(cents)] = 'o';
  return signs.join('');
}

const COLUMNS = [
  { head: 'note' },
  { head: 'low     in tune     high' },
  ...['cents', 'begins', 'middle', 'ends', 'spread', 'heard'].map((head) => ({ head, right: true })),
];

const cells = (note: NoteOnMap): readonly string[] => [
  note.name,
  `   ${tendencyLine(note)}`,
  ...[note.cents, note.beginning, note.middle, note.end].map(signed),
  `${Math.round(note.spread)}`,
  `${note.notes}`,
];

const NONE =
  'Nothing was kept yet for this instrument; standside listen FILE.wav --exercise E --keep keeps what it hears.';

export const tendencyText = (instrument: string, map: readonly NoteOnMap[]): string =>
  map.length === 0
    ? `${NONE}\n`
    : `${instrument}, notes as written; o where a note lies, e where it ends, each sign ${WIDE} cents\n\n` +
      `${textTable(COLUMNS, map.toReversed().map(cells))}\n${CAUTION}\n`;
