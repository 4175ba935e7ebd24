/** Keys of the weeks. Rows of the one table in `keys`. */
import type { KeyRow } from './key-row.ts';

/** The way to them. */
export const WEEKS_ROW: KeyRow = {
  action: 'weeks',
  keys: ['w'],
  short: 'weeks',
  help: 'the weeks: what is stuck, what waits, what grows',
  places: ['today'],
};

export const WEEKS_ROWS: readonly KeyRow[] = [
  {
    action: 'open',
    keys: ['enter'],
    short: 'look',
    help: 'the line over time; in the coverage, put the cell on the stand',
    places: ['weeks'],
  },
  { action: 'put-on-stand', keys: ['space'], short: 'play', help: 'put it on the stand', places: ['weeks'] },
  { action: 'key-before', keys: ['left'], short: '', help: 'in the coverage, the key before', places: ['weeks'] },
  { action: 'key-after', keys: ['right'], short: '', help: 'in the coverage, the next key', places: ['weeks'] },
  { action: 'way', keys: ['v'], short: '', help: 'ways round the wall of what is stuck', places: ['weeks'] },
  { action: 'waits', keys: ['p'], short: '', help: 'put what waits longest on the stand', places: ['weeks'] },
  { action: 'grows', keys: ['g'], short: '', help: 'what grows, over time', places: ['weeks'] },
  { action: 'find', keys: ['f'], short: 'find', help: 'find a line by typing', places: ['weeks'] },
  { action: 'articulation', keys: ['a'], short: '', help: 'only one articulation, the next, all', places: ['weeks'] },
  { action: 'one-kind', keys: ['k'], short: '', help: 'only one kind of work, the next, all', places: ['weeks'] },
  {
    action: 'one-exercise',
    keys: ['e'],
    short: '',
    help: 'only the exercise under the finger, or all',
    places: ['weeks'],
  },
  { action: 'list', keys: ['l'], short: '', help: 'put its exercise in today’s list', places: ['weeks'] },
  { action: 'page', keys: ['tab'], short: 'page', help: 'the next page of the weeks', places: ['weeks'] },
  { action: 'coverage', keys: ['c'], short: '', help: 'keys and articulations, or back', places: ['weeks'] },
  { action: 'minutes', keys: ['m'], short: '', help: 'minutes, tension and notes, or back', places: ['weeks'] },
  { action: 'bests', keys: ['b'], short: '', help: 'the bests, or back', places: ['weeks'] },
];
