import type { TextProps } from 'ink';
import type { Tone } from './paint.ts';

export type Theme = Readonly<Record<Tone, Omit<TextProps, 'children'>>>;

/** Names from the terminal's own palette, so that light and dark both work. Shape and words say the same without them. */
export const COLOURS: Theme = {
  plain: {},
  dim: { dimColor: true },
  strong: { bold: true },
  now: { bold: true, color: 'cyan' },
  clean: { color: 'cyan' },
  tense: { color: 'magenta' },
  missed: { color: 'red' },
  best: { bold: true },
  target: { bold: true },
  key: { bold: true },
};

/** For NO_COLOR and for eyes that do not tell the colours apart. */
export const PLAIN: Theme = {
  ...COLOURS,
  now: { bold: true },
  clean: {},
  tense: {},
  missed: {},
};
