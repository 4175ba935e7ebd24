/** Keys of the player's own: a list by hand, an exercise of one's own. Rows of the one table in `keys`. */
import type { KeyRow } from './key-row.ts';

export const LIST_ROWS: readonly KeyRow[] = [
  {
    action: 'part',
    keys: ['p'],
    short: 'part',
    help: 'one part alone, or those still to come; then the whole day again',
    places: ['today'],
  },
  {
    action: 'list',
    keys: ['l'],
    short: 'list',
    help: 'a list by hand: find, order, minutes; as yesterday',
    places: ['today'],
  },
  {
    action: 'add',
    keys: ['e'],
    short: '',
    help: 'something more at the end of the sitting: five minutes left over',
    only: 'sitting',
    places: ['practice', 'block', 'end'],
  },
];

export const OWN_ROWS: readonly KeyRow[] = [
  {
    action: 'new-exercise',
    keys: ['n'],
    short: 'new',
    help: 'an exercise of your own',
    places: ['today', 'exercises'],
  },
  { action: 'change', keys: ['c'], short: 'change', help: 'change an exercise of your own', places: ['exercises'] },
  { action: 'copy', keys: ['y'], short: '', help: 'one of your own, made of this one', places: ['exercises'] },
  {
    action: 'retire',
    keys: ['x'],
    short: '',
    help: 'no longer offered, or offered again; what was played of it stays',
    places: ['exercises'],
  },
  {
    action: 'others',
    keys: ['o'],
    short: '',
    help: 'those for other instruments too, or no more',
    places: ['exercises'],
  },
];

/** Where a level is changed with the arrows elsewhere, they choose a setting and change it. */
export const SETTINGS_ROWS: readonly KeyRow[] = [
  { action: 'click-softer', keys: ['['], short: '', help: 'the click softer', places: ['settings'] },
  { action: 'click-louder', keys: [']'], short: '', help: 'the click louder', places: ['settings'] },
  { action: 'drone-softer', keys: ['('], short: '', help: 'the drone softer', places: ['settings'] },
  { action: 'drone-louder', keys: [')'], short: '', help: 'the drone louder', places: ['settings'] },
  { action: 'setting-less', keys: ['left'], short: '', help: 'less of it, or the one before', places: ['settings'] },
  { action: 'setting-more', keys: ['right'], short: 'change', help: 'more of it, or the next', places: ['settings'] },
  { action: 'open', keys: ['enter'], short: 'type', help: 'type it, or press the pedal', places: ['settings'] },
];
