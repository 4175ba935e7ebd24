/** The first start on one screen: three questions side by side, the one that is asked under the finger. */
import type { Instrument } from '../../music/pitch/instruments.ts';
import { type Routine, blocksOf } from '../../plan/routine/routine.ts';
import {
  type FirstView,
  instrumentNow,
  instrumentsFound,
  routinesToBegin,
} from '../../practice/screens/first-start-keys.ts';
import { BLANK, type PaintedLine, beside, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import type { DrawScreen } from './screen.ts';

const FAMILIES: Readonly<Record<Instrument['family'], string>> = { brass: 'Brass', reed: 'Reeds', flute: 'Flutes' };

interface Row {
  readonly text: string;
  /** Null for a heading. */
  readonly at: number | null;
}

/** By families where nothing is typed. */
function instrumentRows({ typed, asks }: FirstView): readonly Row[] {
  const found = instrumentsFound(typed);
  return found.flatMap(({ name, family }, at) => {
    const heading = typed === '' && asks === 'instrument' && found[at - 1]?.family !== family;
    return [...(heading ? [{ text: FAMILIES[family], at: null }] : []), { text: name, at }];
  });
}

function drawn(rows: readonly Row[], chosen: number, isAsked: boolean, room: number): readonly PaintedLine[] {
  const here = rows.findIndex(({ at }) => at === chosen);
  const from = Math.max(0, Math.min(here - Math.floor(room / 2), rows.length - room));
  return rows.slice(from, from + room).map(({ text, at }) => {
    if (at === null) return line(seg(` ${text}`, 'strong'));
    const tone = at === chosen ? (isAsked ? 'now' : 'strong') : 'dim';
    return line(seg(` ${at === chosen ? '▶' : ' '} ${text}`, tone));
  });
}

/** What it comes to when all of it is played. */
const minutesOf = (routine: Routine): number =>
  Math.round(blocksOf(routine).reduce((sum, { minutes }) => sum + minutes, 0));

function routineRows(routines: readonly Routine[]): readonly Row[] {
  const rows = routines.map((routine, at) => ({
    text: [`${minutesOf(routine)} min`.padStart(7), routine.title, routine.level ?? ''].filter(Boolean).join('  '),
    at,
  }));
  return [...rows, { text: '         my own list', at: routines.length }];
}

const ASKED: Readonly<Record<FirstView['asks'], string>> = {
  instrument: 'Type a few letters, or choose with the arrows (← → by families).',
  routine: 'What to begin with. Everything can be changed later, and nothing is lost.',
  minutes: 'Minutes there are today, more or less.',
};

const hints = (...pairs: readonly (readonly [string, string])[]): PaintedLine =>
  line(...pairs.flatMap(([key, words]) => [seg(` ${key}`, 'key'), seg(` ${words} `, 'dim')]));

const LATER = 'Changed later under settings (, on Today).';

export const firstScreen: DrawScreen<'first'> = ({ view, ...stand }, { columns, rows }) => {
  const instrument = instrumentNow(view);
  const room = Math.max(3, rows - 8);
  const left = Math.min(30, Math.floor(columns / 3));
  const found = instrumentRows(view);
  const list =
    found.length > 0
      ? drawn(found, view.instrument, view.asks === 'instrument', room)
      : [line(seg(' No instrument is called that.', 'missed'))];
  const typed = view.asks === 'instrument' ? `${view.typed}▏` : '';
  const playing = [line(seg(' What do you play? ', 'strong'), seg(typed, 'now')), ...list];
  const routines = instrument ? routinesToBegin(stand, instrument.id) : [];
  const begin = [
    line(seg(' Begin with', 'strong')),
    ...drawn(routineRows(routines), view.routine, view.asks === 'routine', Math.max(2, room - 3)),
    BLANK,
    line(
      seg(' Minutes ', 'strong'),
      seg(`${view.asks === 'minutes' ? '▶ ' : '  '}${view.minutes}`, view.asks === 'minutes' ? 'now' : 'plain'),
    ),
  ];
  const both = beside({ lines: toHeight(playing, room + 1), width: left }, { lines: begin, width: columns - left });
  const said = [
    line(seg(' Three questions before the first day', 'strong')),
    BLANK,
    ...both,
    BLANK,
    ...wrapped(ASKED[view.asks], 'now', columns, 1),
    line(seg(` ${LATER}`, 'dim')),
  ];
  const foot = hints(['↑ ↓', 'choose'], ['Enter', view.asks === 'minutes' ? 'begin' : 'next'], ['Esc', 'not now']);
  return toHeight([...toHeight(said, rows - 1), foot], rows).map((painted) => fit(painted, columns));
};
