/** Every key stands here once: dispatch, the help screen, the foot line and the README are made from it. */
import type { OwnKeys } from '../practice/settings.ts';
import type { Action } from '../practice/stand.ts';
import {
  CHOSEN_FROM,
  type Circumstance,
  EVERYWHERE,
  type KeyRow,
  LISTS,
  type Place,
  SITTING,
  SOUNDING,
} from './key-row.ts';
import { HAND_ROWS, LIST_ROWS, OWN_ROWS, SETTINGS_ROWS } from './own-rows.ts';
import { WEEKS_ROW, WEEKS_ROWS } from './weeks-rows.ts';

export type { Circumstance, KeyRow, Place } from './key-row.ts';

export const KEYS: readonly KeyRow[] = [
  {
    action: 'play-block',
    keys: ['space'],
    short: 'start',
    running: 'stop',
    help: 'start the block’s clock, or stop it',
    places: ['block'],
  },
  { action: 'breath', keys: ['c'], short: 'breath', help: 'count a breath', only: 'breaths', places: ['block'] },
  {
    action: 'start-pause',
    keys: ['space'],
    short: 'start',
    running: 'pause',
    help: 'start, or pause at once',
    places: ['practice'],
  },
  {
    action: 'clean',
    keys: ['c'],
    short: 'clean',
    help: 'mark the repetition clean: right and easy',
    places: ['practice'],
  },
  {
    action: 'tense',
    keys: ['t'],
    short: 'tense',
    help: 'mark it tense: right notes, but with effort',
    places: ['practice'],
  },
  {
    action: 'missed',
    keys: ['m'],
    short: 'missed',
    help: 'mark it missed; in the middle it ends at the next bar line',
    places: ['practice'],
  },
  {
    action: 'undo',
    keys: ['u'],
    short: 'undo',
    help: 'take the last mark back, with all it changed; or the last breath, reading or note',
    places: ['practice', 'block', 'end'],
  },
  {
    action: 'faster',
    keys: ['+', '='],
    sign: '+ -',
    short: 'tempo',
    help: 'one rung up by hand',
    places: ['practice'],
  },
  { action: 'slower', keys: ['-'], short: '', help: 'one rung down by hand', places: ['practice'] },
  {
    action: 'drone',
    keys: ['d'],
    short: 'drone',
    help: 'the key’s tonic as a steady tone, on or off',
    namedWith: 'a key',
    places: SITTING,
  },
  { action: 'drone-up', keys: ['i'], short: '', help: 'the drone a semitone up', places: SITTING },
  { action: 'drone-down', keys: ['l'], short: '', help: 'the drone a semitone down', places: SITTING },
  { action: 'drone-home', keys: ['o'], short: '', help: 'the drone back to the key’s tonic', places: SITTING },
  {
    action: 'model',
    keys: ['h'],
    short: '',
    help: 'hear the pattern played along softly, on or off',
    places: ['practice'],
  },
  {
    action: 'next-block',
    keys: ['n'],
    short: 'next',
    help: 'on to the next block of the sitting',
    only: 'sitting',
    places: SITTING,
  },
  {
    action: 'pause-block',
    keys: ['p'],
    short: '',
    help: 'stop clock, click and drone (a lesson, the door), or go on',
    only: 'sitting',
    places: SITTING,
  },
  { action: 'longer', keys: ['x'], short: '', help: 'a minute more for this block', only: 'sitting', places: SITTING },
  {
    action: 'skip-block',
    keys: ['s'],
    short: '',
    help: 'leave this block out today',
    only: 'sitting',
    places: SITTING,
  },
  {
    action: 'swap-block',
    keys: ['w'],
    short: '',
    help: 'swap it with the next block',
    only: 'sitting',
    places: SITTING,
  },
  {
    action: 'block-before',
    keys: ['b'],
    short: '',
    help: 'the block before again',
    only: 'sitting',
    places: [...SITTING, 'end'],
  },
  {
    action: 'tension',
    keys: ['0', '1', '2', '3', '4'],
    sign: '0-4',
    short: '',
    help: 'how tense the last block was: 0 none, 4 very',
    places: [...SITTING, 'end'],
  },
  {
    action: 'way',
    keys: ['v'],
    short: '',
    help: 'ways round a wall; on one, back to the ladder',
    places: ['practice'],
  },
  { action: 'click-softer', keys: ['down', '['], short: '', help: 'the click softer', places: SOUNDING },
  { action: 'click-louder', keys: ['up', ']'], short: '', help: 'the click louder', places: SOUNDING },
  { action: 'drone-softer', keys: ['left', '('], short: '', help: 'the drone softer', places: SOUNDING },
  { action: 'drone-louder', keys: ['right', ')'], short: '', help: 'the drone louder', places: SOUNDING },
  ...SETTINGS_ROWS,
  {
    action: 'up',
    keys: ['up'],
    short: '',
    help: 'the one above',
    places: [...LISTS, 'grid', 'weeks', 'list', 'settings'],
  },
  {
    action: 'down',
    keys: ['down'],
    short: 'choose',
    help: 'the one below',
    places: [...LISTS, 'grid', 'weeks', 'list', 'settings'],
  },
  { action: 'open', keys: ['enter', 'space'], short: 'begin', help: 'put it on the stand', places: LISTS },
  { action: 'open', keys: ['enter', 'space'], short: 'take', help: 'put the cell on the stand', places: ['grid'] },
  {
    action: 'note',
    keys: ['w'],
    short: 'note',
    help: 'write a note about the sitting; Enter keeps it, Esc drops it',
    only: 'sitting',
    places: ['end'],
  },
  {
    action: 'go-on',
    keys: ['g'],
    short: 'go on',
    help: 'go on where today’s sitting was left',
    only: 'left open',
    places: ['today'],
  },
  ...LIST_ROWS,
  {
    action: 'type-time',
    keys: ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'],
    sign: '0-9',
    short: 'minutes',
    help: 'type the minutes there are',
    places: ['today'],
  },
  { action: 'more-time', keys: ['+', '='], sign: '+ -', short: '', help: 'five minutes more', places: ['today'] },
  { action: 'less-time', keys: ['-'], short: '', help: 'five minutes less', places: ['today'] },
  { action: 'order', keys: ['o'], short: 'order', help: 'blocks one after the other, or in turns', places: ['today'] },
  { action: 'routine', keys: ['r'], short: 'routine', help: 'another routine', places: ['today'] },
  {
    action: 'exercises',
    keys: ['e'],
    short: 'exercises',
    help: 'all exercises, in each of their keys and articulations',
    places: ['today'],
  },
  WEEKS_ROW,
  {
    action: 'settings',
    keys: [','],
    short: '',
    help: 'settings: instrument, A, levels, drone, rule, pedal and all others',
    places: ['today', 'exercises'],
  },
  { action: 'key-before', keys: ['left'], short: '', help: 'the key before', places: CHOSEN_FROM },
  { action: 'key-after', keys: ['right'], short: 'key', help: 'the next key', places: CHOSEN_FROM },
  { action: 'key-before', keys: [','], short: '', help: 'the key before, the clock runs on', places: SITTING },
  {
    action: 'key-after',
    keys: ['.'],
    short: 'key',
    help: 'the next key, the clock runs on',
    namedWith: 'keys',
    places: SITTING,
  },
  ...OWN_ROWS,
  ...WEEKS_ROWS,
  ...HAND_ROWS,
  {
    action: 'articulation',
    keys: ['a', 'tab'],
    short: 'articulation',
    help: 'the next articulation',
    namedWith: 'ways of tonguing',
    places: ['exercises', ...SITTING],
  },
  {
    action: 'another-draw',
    keys: ['r'],
    short: '',
    help: 'go on to the turn that comes next, or draw another',
    places: SITTING,
  },
  {
    action: 'grid',
    keys: ['g'],
    short: 'grid',
    help: 'the grid of keys and articulations, to choose a cell',
    places: ['practice', 'grid'],
  },
  {
    action: 'cell-after',
    keys: ['tab'],
    short: '',
    help: 'the next cell, row after row',
    places: ['grid'],
  },
  {
    action: 'back',
    keys: ['escape', 'backspace'],
    short: 'today',
    help: 'back to Today',
    places: EVERYWHERE.filter((place) => place !== 'today' && place !== 'grid'),
  },
  { action: 'back', keys: ['escape', 'backspace'], short: 'back', help: 'back to the line', places: ['grid'] },
  { action: 'help', keys: ['?', 'f1'], short: 'help', help: 'this page, on or off', places: EVERYWHERE },
  {
    action: 'suspend',
    keys: ['ctrl+z'],
    short: '',
    help: 'back to the shell for a while; fg goes on',
    places: EVERYWHERE,
  },
  {
    action: 'leave',
    keys: ['q', 'ctrl+c'],
    short: 'leave',
    help: 'leave; every mark is already kept',
    places: EVERYWHERE,
  },
  {
    action: 'pedal-forward',
    keys: ['pagedown'],
    short: '',
    help: 'the pedal: what comes next here; be it begin, start, clean, a breath or go on',
    places: EVERYWHERE,
  },
  {
    action: 'pedal-back',
    keys: ['pageup'],
    short: '',
    help: 'the pedal’s other side; missed, stop the clock, the next in a list, a higher answer',
    places: EVERYWHERE,
  },
];

export type { OwnKeys };

export const isPedal = ({ action }: Pick<KeyRow, 'action'>): boolean =>
  action === 'pedal-forward' || action === 'pedal-back';

/** Whatever a pedal sends, there is a way out. */
export const LAST_WAY_OUT = 'ctrl+c';

/** Each of their keys says something else: none of them can be given away. */
const EACH_COUNTS: readonly Action[] = ['tension', 'type-time'];

/** Without the keys that an own row in the same place has taken, as long as one is left; a pedal takes all it sends. */
function givingWay(row: KeyRow, own: OwnKeys): readonly string[] {
  const takers = KEYS.filter((other) => own[other.action] && other.places.some((place) => row.places.includes(place)));
  const sentBy = (some: readonly KeyRow[]): readonly string[] => some.flatMap(({ action }) => own[action] ?? []);
  const forPedal = row.keys.filter((key) => key === LAST_WAY_OUT || !sentBy(takers.filter(isPedal)).includes(key));
  const left = forPedal.filter((key) => !sentBy(takers).includes(key));
  return left.length === 0 || EACH_COUNTS.includes(row.action) ? forPedal : left;
}

/**
 * The player's own keys, and the program's where there are none. Where an own key is one of several that another row
 * has (the arrows), that row gives it up. The pedal’s usual
 * keys stand last: any of them can be given to something else.
 */
export const withOwnKeys = (own: OwnKeys): readonly KeyRow[] =>
  KEYS.map((row) => {
    const mine = own[row.action];
    // The sign is that of the program's keys.
    const { sign, ...unsigned } = row;
    if (mine && sign !== undefined && !EACH_COUNTS.includes(row.action)) return { ...unsigned, keys: mine };
    return { ...row, keys: mine ?? (isPedal(row) ? row.keys : givingWay(row, own)) };
  });

const ALL: readonly Circumstance[] = [
  'sitting',
  'left open',
  'running',
  'breaths',
  'a key',
  'keys',
  'ways of tonguing',
];

/** The keys of a place; all of them, or those that do something in these circumstances. */
export const rowsFor = (rows: readonly KeyRow[], place: Place, now: readonly Circumstance[] = ALL): readonly KeyRow[] =>
  rows.filter(
    ({ keys, places, only }) => keys.length > 0 && places.includes(place) && (only === undefined || now.includes(only)),
  );

export const actionFor = (
  rows: readonly KeyRow[],
  place: Place,
  name: string,
  now: readonly Circumstance[],
): Action | null => rowsFor(rows, place, now).find(({ keys }) => keys.includes(name))?.action ?? null;
