/** One field of a form: its name, what is typed, and where the next letter goes. */
import { Box, Text } from 'ink';
import { harmless } from '../../common/harmless-text.ts';
import { type PaintedLine, line, seg } from '../paint.ts';
import { Styled } from './styled.tsx';

export interface FieldLook {
  readonly label: string;
  readonly text: string;
  /** What it is where nothing is typed. */
  readonly usual: string;
  readonly width: number;
  /** Letters before the cursor; null where one is somewhere else. */
  readonly cursor: number | null;
  /** Column of a mistake, from 1; 0 for a mistake of the whole, null for none. */
  readonly wrong: number | null;
}

const LABEL = 14;

/** The stretch of a long text around the cursor, and how many letters stand before it. */
function stretch(letters: readonly string[], cursor: number, room: number): { from: number; shown: readonly string[] } {
  const from = Math.max(0, Math.min(cursor - room + 1, letters.length - room + 1));
  return { from, shown: letters.slice(from, from + room) };
}

/** Each letter takes one cell; what a terminal would obey shows as a sign of its own. */
const shownLetter = (letter: string): string => (harmless(letter) === letter ? letter : '?');

function typed({ text, cursor, wrong, width }: FieldLook): PaintedLine {
  const room = Math.max(4, width - LABEL - 4);
  const { from, shown } = stretch([...text].map(shownLetter), cursor ?? 0, room);
  const bad = (wrong ?? 0) - 1 - from;
  const part = (a: number, b?: number) => shown.slice(a, b).join('');
  if (bad < 0 || bad >= shown.length) return line(seg(part(0), cursor === null ? 'plain' : 'now'));
  return line(seg(part(0, bad)), seg(part(bad, bad + 1), 'missed'), seg(part(bad + 1)));
}

/** The cursor as a bar after the letters before it, so that it is seen without colours too. */
function withCursor(look: FieldLook): PaintedLine {
  const { text, cursor, usual } = look;
  if (cursor === null) return text === '' ? line(seg(usual, 'dim')) : typed(look);
  if (text === '') return line(seg('▏', 'now'), seg(usual, 'dim'));
  const letters = [...text];
  const marked = [...letters.slice(0, cursor), '▏', ...letters.slice(cursor)].join('');
  const { wrong } = look;
  return typed({ ...look, text: marked, wrong: wrong !== null && wrong > cursor ? wrong + 1 : wrong });
}

export function TextField(look: FieldLook) {
  const { label, width, cursor, wrong } = look;
  const sign = wrong === null ? (cursor === null ? ' ' : '▶') : '×';
  const head = line(
    seg(` ${sign} `, wrong === null ? 'now' : 'missed'),
    seg(label, cursor === null ? 'dim' : 'strong'),
  );
  return (
    <Box width={width}>
      <Box width={LABEL + 3} flexShrink={0}>
        <Styled line={head} />
      </Box>
      <Box flexGrow={1}>
        <Styled line={withCursor(look)} />
      </Box>
      <Text> </Text>
    </Box>
  );
}
