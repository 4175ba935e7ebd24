/** The keys that work here, on one line; the help page has the rest. */
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

const hint = (row: KeyRow, runs: boolean): PaintedLine =>
  line(seg(row.sign ?? keySign(row.keys[0] ?? ''), 'key'), seg(` ${(runs && row.running) || row.short}  `, 'dim'));

/** As many keys as fit; help and leave always do. */
export function foot(rows: readonly KeyRow[], place: Place, now: readonly Circumstance[], width: number): PaintedLine {
  const runs = now.includes('running');
  const shown = rowsFor(rows, place, now).filter(({ short }) => short !== '');
  const always = shown
    .filter(({ action }) => action === 'help' || action === 'leave')
    .flatMap((row) => [...hint(row, runs)]);
  const others: PaintedLine[] = [];
  let left = width - 1 - widthOf(always);
  for (const row of shown.filter(({ action }) => action !== 'help' && action !== 'leave')) {
    const painted = hint(row, runs);
    if (widthOf(painted) > left) break;
    left -= widthOf(painted);
    others.push(painted);
  }
  return [seg(' '), ...others.flatMap((painted) => [...painted]), ...always];
}
