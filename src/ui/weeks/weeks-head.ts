/** The head of every page of the weeks: what it shows, and the other pages with their keys. */
import type { Action } from '../../practice/stand.ts';
import type { WeeksPage } from '../../practice/weeks/weeks-place.ts';
import { type PaintedLine, line, seg } from '../paint.ts';
import { type Canvas, keyOn } from '../screens/screen.ts';

const ABOUT: Readonly<Record<WeeksPage, string>> = {
  lines: 'what you can play 9 times in 10',
  line: 'one line over time',
  coverage: 'how much of the target each key has reached',
  minutes: 'what was played',
  bests: 'what each line has held',
};

const OTHERS: readonly { readonly page: WeeksPage; readonly action: Action; readonly word: string }[] = [
  { page: 'coverage', action: 'coverage', word: 'coverage' },
  { page: 'minutes', action: 'minutes', word: 'minutes' },
  { page: 'bests', action: 'bests', word: 'bests' },
];

/** `more` stands where the page says something of its own. */
export function weeksHead(page: WeeksPage, canvas: Canvas, about: string = ABOUT[page]): PaintedLine {
  const key = (action: Action): string => keyOn(canvas, 'weeks', action);
  const others = OTHERS.filter((one) => one.page !== page).map(({ action, word }) => `${key(action)} ${word}`);
  const right = others.join('  ');
  const left = ` Weeks  ${about}`;
  const gap = canvas.columns - left.length - right.length - 1;
  return line(
    seg(' Weeks', 'strong'),
    seg(`  ${about}${' '.repeat(Math.max(2, gap))}`, 'dim'),
    seg(gap >= 2 ? right : '', 'dim'),
  );
}
