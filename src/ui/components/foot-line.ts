/** The keys that work here, on one line; the help page has the rest. */
import type { Action } from '../../practice/stand.ts';
import { type Circumstance, type KeyRow, type Place, rowsFor } from '../keys.ts';
import { type PaintedLine, line, seg, widthOf } from '../paint.ts';

const KEY_SIGNS: Readonly<Record<string, string>> = {
  up: '↑',
  down: '↓',
  left: '←',
  right: '→',
  pagedown: 'PageDown',
  pageup: 'PageUp',
  escape: 'Esc',
  enter: 'Enter',
};

export const keySign = (name: string): string => KEY_SIGNS[name] ?? name;

/** How a row's keys are shown where there is little room. */
export const signOf = ({ sign, keys }: KeyRow): string => sign ?? keySign(keys[0] ?? '');

const hint = (row: KeyRow, runs: boolean): PaintedLine =>
  line(seg(signOf(row), 'key'), seg(` ${(runs && row.running) || row.short}  `, 'dim'));

/** Where not all fit: what a screen is for, and the ways on from it. */
const MATTER_MOST: readonly Action[] = [
  'start-pause',
  'play-block',
  'clean',
  'tense',
  'missed',
  'next-block',
  'breath',
  'go-on',
  'open',
  'exercises',
  'weeks',
  'undo',
  'note',
];

const rankOf = ({ action }: KeyRow): number => {
  const rank = MATTER_MOST.indexOf(action);
  return rank === -1 ? MATTER_MOST.length : rank;
};

/** As many keys as fit, those that matter most first to be chosen; help and leave always are there. */
export function foot(rows: readonly KeyRow[], place: Place, now: readonly Circumstance[], width: number): PaintedLine {
  const runs = now.includes('running');
  const isNamed = ({ short, namedWith }: KeyRow): boolean =>
    short !== '' && (namedWith === undefined || now.includes(namedWith));
  const shown = rowsFor(rows, place, now).filter(isNamed);
  const always = shown
    .filter(({ action }) => action === 'help' || action === 'leave')
    .flatMap((row) => [...hint(row, runs)]);
  const others = shown.filter(({ action }) => action !== 'help' && action !== 'leave');
  const chosen = new Set<KeyRow>();
  let left = width - 1 - widthOf(always);
  for (const row of others.toSorted((a, b) => rankOf(a) - rankOf(b))) {
    const wide = widthOf(hint(row, runs));
    if (wide > left) break;
    left -= wide;
    chosen.add(row);
  }
  const named = others.filter((row) => chosen.has(row)).flatMap((row) => [...hint(row, runs)]);
  return [seg(' '), ...named, ...always];
}
