import { Box, Text } from 'ink';
import { createContext, memo, useContext } from 'react';
import type { PaintedLine } from '../paint.ts';
import { COLOURS, type Theme } from '../theme.ts';

export const ThemeContext = createContext<Theme>(COLOURS);

const sameText = (a: PaintedLine, b: PaintedLine): boolean =>
  a.length === b.length && a.every((part, k) => part.text === b[k]?.text && part.tone === b[k]?.tone);

/** One line of a drawing; drawn again only when what it shows has changed. */
export const Painted = memo(
  function Painted({ painted }: { readonly painted: PaintedLine }) {
    const theme = useContext(ThemeContext);
    if (painted.length === 0) return <Text> </Text>;
    return (
      <Text wrap="truncate-end">
        {painted.map(({ text, tone }, k) => (
          <Text key={`${k}`} {...theme[tone]}>
            {text}
          </Text>
        ))}
      </Text>
    );
  },
  (before, after) => sameText(before.painted, after.painted),
);

export function Painting({ lines }: { readonly lines: readonly PaintedLine[] }) {
  return (
    <Box flexDirection="column">
      {lines.map((painted, row) => (
        <Painted key={`${row}`} painted={painted} />
      ))}
    </Box>
  );
}
