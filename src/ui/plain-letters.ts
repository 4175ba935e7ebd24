/** The same drawing in ASCII, character by character, for terminals that have nothing else: no width changes. */
import type { PaintedLine } from './paint.ts';

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
  ['↑↓←→▶▲▼', '^v<>>^v'],
  ['·…–—’‘“”°⌟⌞', '.~--\'\'""o  '],
  ['∿´`', "~'`"],
];

const PLAIN: ReadonlyMap<string, string> = new Map(
  PAIRS.flatMap(([from, to]) => [...from].map((sign, k) => [sign, [...to][k] ?? '?'] as const)),
);

/** A letter without its accent; '?' for what ASCII has nothing like. */
function asciiOf(sign: string): string {
  if (sign >= ' ' && sign <= '~') return sign;
  const [bare = '?'] = sign.normalize('NFD');
  return PLAIN.get(sign) ?? (bare >= ' ' && bare <= '~' ? bare : '?');
}

export const plainLetters = (text: string): string => [...text].map(asciiOf).join('');

export const inPlainLetters = (painted: PaintedLine): PaintedLine =>
  painted.map(({ text, tone }) => ({ text: plainLetters(text), tone }));
