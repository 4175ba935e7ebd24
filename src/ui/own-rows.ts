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

/** Today's list by hand, while it is put in order. */
export const HAND_ROWS: readonly KeyRow[] = [
  { action: 'open', keys: ['enter', 'space'], short: 'play', help: 'play the list from here', places: ['list'] },
  {
    action: 'find',
    keys: ['a', 'tab'],
    short: 'add',
    help: 'find something more by typing; Enter adds it, Tab comes back',
    places: ['list'],
  },
  { action: 'take-out', keys: ['x'], short: 'out', help: 'take it out of the list', places: ['list'] },
  { action: 'move-up', keys: ['['], sign: '[ ]', short: 'move', help: 'move it up', places: ['list'] },
  { action: 'move-down', keys: [']'], short: '', help: 'move it down', places: ['list'] },
  {
    action: 'minute-less',
    keys: ['left', '-'],
    sign: '← →',
    short: 'minutes',
    help: 'a minute less',
    places: ['list'],
  },
  { action: 'minute-more', keys: ['right', '+', '='], short: '', help: 'a minute more', places: ['list'] },
  { action: 'undo', keys: ['u'], short: 'undo', help: 'the list as it was before the last change', places: ['list'] },
  {
    action: 'as-before',
    keys: ['y'],
    short: 'as yesterday',
    help: 'as yesterday, or the last day there is; again, the day before that',
    places: ['list'],
  },
  { action: 'as-last-week', keys: ['t'], short: 'as last week', help: 'as a week ago today', places: ['list'] },
  { action: 'as-proposed', keys: ['p'], short: 'as proposed', help: 'what Today proposes', places: ['list'] },
  { action: 'keep-list', keys: ['r'], short: 'keep it', help: 'keep it as a routine under a name', places: ['list'] },
];
