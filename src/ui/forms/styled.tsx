/** Toned text through Ink's own Text, in the letters that the terminal has. */
import { Text } from 'ink';
import { createContext, useContext } from 'react';
import type { Lettering } from '../../music/page/strip.ts';
import type { PaintedLine } from '../paint.ts';
import { inPlainLetters } from '../plain-letters.ts';
import { COLOURS, inColour } from '../theme.ts';

export const LetteringContext = createContext<Lettering>('signs');

/** One line; what does not fit is cut with an ellipsis, or goes on below where it may wrap. */
export function Styled({
  line,
  wrap = 'truncate',
}: {
  readonly line: PaintedLine;
  readonly wrap?: 'truncate' | 'wrap';
}) {
  const lettering = useContext(LetteringContext);
  return <Text wrap={wrap}>{inColour(lettering === 'plain' ? inPlainLetters(line) : line, COLOURS)}</Text>;
}
