/** Drawings as plain data: lines of toned text, so that a layout can be tested without a terminal. */

import { withSign } from '../common/harmless-text.ts';
import { columnsOf, cutTo } from './text-width.ts';

export type Tone =
  'plain' | 'dim' | 'strong' | 'now' | 'large' | 'clean' | 'tense' | 'missed' | 'best' | 'target' | 'key';

export interface Segment {
  readonly text: string;
  readonly tone: Tone;
}

export type PaintedLine = readonly Segment[];

/** Whatever a text says, and wherever it is from: the picture obeys nothing. */
export const seg = (text: string, tone: Tone = 'plain'): Segment => ({ text: withSign(text, '\ufffd'), tone });
export const line = (...segments: readonly Segment[]): PaintedLine => segments.filter(({ text }) => text !== '');
export const BLANK: PaintedLine = [];

export const widthOf = (painted: PaintedLine): number => painted.reduce((sum, { text }) => sum + columnsOf(text), 0);

/** Cut to a width with '…' at its end, or filled up to it with blanks. */
export function fit(painted: PaintedLine, width: number): PaintedLine {
  const isLong =
    widthOf(
      painted.map(({ text, tone }, k) => (k === painted.length - 1 ? seg(text.trimEnd(), tone) : seg(text, tone))),
    ) > width;
  const cut: Segment[] = [];
  let left = isLong ? width - 1 : width;
  for (const { text, tone } of painted) {
    const part = cutTo(text, left);
    left -= columnsOf(part);
    if (part) cut.push(seg(part, tone));
    // A sign of two columns that did not fit leaves one empty; nothing that follows takes it.
    if (part !== text) break;
  }
  if (isLong) return [...cut, seg('…'.padEnd(left + 1), 'dim')];
  return left > 0 ? [...cut, seg(' '.repeat(left))] : cut;
}

/** Put drawings side by side, each in its own width. */
export function beside(
  ...parts: readonly { readonly lines: readonly PaintedLine[]; readonly width: number }[]
): readonly PaintedLine[] {
  const height = Math.max(...parts.map(({ lines }) => lines.length));
  return Array.from({ length: height }, (_, row) =>
    parts.flatMap(({ lines, width }) => [...fit(lines[row] ?? BLANK, width)]),
  );
}

/** A sentence over as many lines as it needs, broken between words, at most so many; a blank stands before each. */
export function wrapped(text: string, tone: Tone, width: number, most = 4): readonly PaintedLine[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = `${lines.at(-1) ?? ''} ${word}`;
    if (lines.length > 0 && columnsOf(longer) < width) lines[lines.length - 1] = longer;
    else lines.push(` ${word}`);
  }
  return lines.slice(0, most).map((part) => line(seg(part, tone)));
}

/** Exactly so many lines: cut at the end or filled with blank ones. */
export const toHeight = (lines: readonly PaintedLine[], height: number): readonly PaintedLine[] =>
  Array.from({ length: height }, (_, row) => lines[row] ?? BLANK);

/** What it looks like without any tone. */
export const plainText = (lines: readonly PaintedLine[]): string =>
  lines
    .map((painted) =>
      painted
        .map(({ text }) => text)
        .join('')
        .trimEnd(),
    )
    .join('\n');
