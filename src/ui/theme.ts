import type { PaintedLine, Tone } from './paint.ts';

/** For each tone the parameters of SGR (ECMA-48, 8.3.117): '1;36' is bold cyan, '' as the terminal has it. */
export type Theme = Readonly<Record<Tone, string>>;

/**
 * Names from the terminal's own palette, so that light and dark both work. Shape and words say the same without them.
 */
export const COLOURS: Theme = {
  plain: '',
  dim: '2',
  strong: '1',
  now: '1',
  large: '1',
  clean: '36',
  tense: '35',
  missed: '31',
  best: '1',
  target: '1',
  key: '1',
};

/** For NO_COLOR and for eyes that do not tell the colours apart. */
export const PLAIN: Theme = { ...COLOURS, now: '1', clean: '', tense: '', missed: '' };

const RESET = '\x1b[0m';

/** One line, or a part of one, as a terminal is told of it. */
export const inColour = (painted: PaintedLine, theme: Theme): string =>
  painted.map(({ text, tone }) => (theme[tone] === '' ? text : `\x1b[${theme[tone]}m${text}${RESET}`)).join('');
