/** The same drawing in ASCII, character by character, for terminals that have nothing else: no width changes. */
import type { PaintedLine } from './paint.ts';
import { cellsOf } from './text-width.ts';

/** From, to: the n-th of one for the n-th of the other. */
const PAIRS: readonly (readonly [string, string])[] = [
  ['█▓▒░▄▖▌▞', '#%+.#:|%'],
  ['▁▂▃▅▆▇', '_.:=+*'],
  ['━─┄╌═', '=-.-='],
  ['│╎┆┊┃', '||::|'],
  ['┌┐└┘├┤┬┴┼', '+++++++++'],
  ['╱╲╳╯╰╭╮', '/\\x/\\/\\'],
  ['▉▊▋▍▎▏', '#####|'],
  ['•', 'o'],
  ['●◐○≈×', 'o%.~x'],
  ['♭♯', 'b#'],
  ['◇', '*'],
  ['↑↓←→▶▲▼', '^v<>>^v'],
  ['·…–—’‘“”°⌟⌞', '.~--\'\'""o  '],
  ['∿´`', "~'`"],
];

const PLAIN: ReadonlyMap<string, string> = new Map(
  PAIRS.flatMap(([from, to]) => [...from].map((sign, k) => [sign, [...to][k] ?? '?'] as const)),
);

const isAscii = (sign: string): boolean => /^[ -~]$/.test(sign);

/** A letter without its accent; for what ASCII has nothing like a '?' in each of its columns. */
function asciiOf(sign: string, columns: number): string {
  const [bare = '?'] = sign.normalize('NFD');
  return PLAIN.get(sign) ?? (isAscii(bare) ? bare : '?'.repeat(columns));
}

const ALL_ASCII = /^[ -~]*$/;

export const plainLetters = (text: string): string =>
  ALL_ASCII.test(text)
    ? text
    : cellsOf(text)
        .map(({ sign, columns }) => asciiOf(sign, columns))
        .join('');

export const inPlainLetters = (painted: PaintedLine): PaintedLine =>
  painted.map(({ text, tone }) => ({ text: plainLetters(text), tone }));
