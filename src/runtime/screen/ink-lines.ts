/** What Ink wrote of a form, as a drawing again: its lines go to the terminal as those of a picture do. */
import { type PaintedLine, type Segment, type Tone, line, seg } from '../../ui/paint.ts';

/** Parameters of SGR (ECMA-48, 8.3.117) that the themes use, and the tones that they stand for. */
const TONES: Readonly<Record<string, Tone>> = {
  '1': 'strong',
  '2': 'dim',
  '31': 'missed',
  '35': 'tense',
  '36': 'clean',
};

// oxlint-disable-next-line no-control-regex -- the beginning of a control sequence is what is looked for
const SGR = /\x1b\[([0-9;]*)m/;

/** `paintedLine('\x1b[1mTitle\x1b[22m Page')` is strong 'Title', plain ' Page'. */
function paintedLine(text: string): PaintedLine {
  const segments: Segment[] = [];
  let tone: Tone = 'plain';
  for (const [i, part] of text.split(SGR).entries()) {
    if (i % 2 === 0) segments.push(seg(part, tone));
    else tone = part.split(';').reduce<Tone>((_, code) => TONES[code] ?? 'plain', tone);
  }
  return line(...segments);
}

/** Null where there is nothing to see: Ink writes of pictures too, and has nothing to say of them. */
export function paintedLines(text: string): readonly PaintedLine[] | null {
  const lines = text.split('\n').map(paintedLine);
  return lines.some((one) => one.some((part) => part.text.trim() !== '')) ? lines : null;
}
