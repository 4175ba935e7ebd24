/** How many columns of a terminal a text takes: a sign of Chinese or an emoji takes two, a combining accent none. */
import stringWidth from 'string-width';

/** What nearly every line is made of, one column each: looked at first, because the beat waits for nobody. */
const NARROW = /^[ -~\u00a1-\u00ac\u00ae-\u024f\u2010-\u2027\u2190-\u21ff\u2248\u2500-\u25fc\u266d\u266f]*$/u;

const signs = new Intl.Segmenter(undefined, { granularity: 'grapheme' });

/** What the eye takes for one sign each, accents and joined emoji included. */
const signsOf = (text: string): readonly string[] => Array.from(signs.segment(text), ({ segment }) => segment);

/** Every sign of it takes one column, on any terminal. */
export const isEven = (text: string): boolean => NARROW.test(text);

/** `columnsOf('\u7df4\u7fd2 1')` is 6. */
export const columnsOf = (text: string): number => (NARROW.test(text) ? text.length : stringWidth(text));

/** As much of the beginning as fits; a wide sign is not cut in half. `cutTo('\u7df4\u7fd2', 3)` is its first. */
export function cutTo(text: string, columns: number): string {
  if (NARROW.test(text)) return text.slice(0, Math.max(0, columns));
  let left = columns;
  let shown = '';
  for (const sign of signsOf(text)) {
    left -= stringWidth(sign);
    if (left < 0) break;
    shown += sign;
  }
  return shown;
}

/** Exactly so many columns: filled up with blanks; too long a text ends in '…' and keeps a blank behind it. */
export function cell(text: string, columns: number): string {
  const shown = columnsOf(text) >= columns ? `${cutTo(text, columns - 2)}…` : text;
  return shown + ' '.repeat(Math.max(0, columns - columnsOf(shown)));
}

/** The signs of a text, each with its columns. */
export const cellsOf = (text: string): readonly { readonly sign: string; readonly columns: number }[] =>
  signsOf(text).map((sign) => ({ sign, columns: columnsOf(sign) }));
