/** The screen of a block without a ladder (body, long tones, a rest): the time left in tall figures, one cue. */
import type { Stand } from '../../practice/stand.ts';
import { messageNow } from '../../practice/messages.ts';
import { exerciseNow, itemNow } from '../../practice/sitting/sitting.ts';
import { digits } from '../components/tall-figures.ts';
import { BLANK, type PaintedLine, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import type { DrawScreen, On } from './screen.ts';
import { quietStrip } from './practice-strip.ts';
import { sittingStrip, viewOf } from './sitting-lines.ts';

/** One cue at a time, each for half a minute. */
const CUE_SECONDS = 30;

export function cueNow(cues: readonly string[], played: number): string {
  return cues[Math.floor(played / CUE_SECONDS) % Math.max(1, cues.length)] ?? '';
}

const centred = (painted: PaintedLine, width: number, columns: number): PaintedLine => [
  seg(' '.repeat(Math.max(0, Math.floor((columns - width) / 2)))),
  ...painted,
];

const words = (text: string, columns: number, tone: 'strong' | 'plain' | 'dim' | 'now'): PaintedLine =>
  centred(line(seg(text, tone)), [...text].length, columns);

function tallTime(left: string, columns: number, scale: number): readonly PaintedLine[] {
  const figures = digits(left, scale, 'now');
  const width = Math.max(0, ...figures.map((row) => row.reduce((sum, { text }) => sum + text.length, 0)));
  return figures.map((row) => centred(row, width, columns));
}

/** A breath is a mark; so many are asked for. */
function breathLine(stand: Stand, columns: number): PaintedLine {
  const item = itemNow(stand);
  if (!stand.sitting || !item?.breaths) return BLANK;
  const { breaths } = stand.sitting.run;
  return words(
    '● '.repeat(Math.min(breaths, item.breaths)) + '○ '.repeat(Math.max(0, item.breaths - breaths)),
    columns,
    'now',
  );
}

/** 'Bb · drone on' */
function keyLine({ view: { tone } }: On<'block'>): string {
  return tone ? `${tone.line.key} · drone ${tone.droneState === 'off' ? 'off' : 'on'}` : '';
}

export const blockScreen: DrawScreen<'block'> = (stand, { columns, rows, lettering, foot }) => {
  const view = viewOf(stand);
  const item = itemNow(stand);
  if (!view || !item) return toHeight([foot], rows);
  const exercise = exerciseNow(stand);
  const material = item.material ?? '';
  const body = [
    words(view.title, columns, 'strong'),
    words(keyLine(stand) || view.part, columns, keyLine(stand) ? 'now' : 'dim'),
    BLANK,
    ...tallTime(view.left, columns, rows >= 30 ? 2 : 1),
    BLANK,
    words(`of ${view.of}${view.count ? ` · ${view.count}` : ''}`, columns, 'plain'),
    breathLine(stand, columns),
    BLANK,
    words(cueNow(item.cues.length > 0 ? item.cues : (exercise?.cues ?? []), item.played), columns, 'strong'),
    words(material, columns, 'plain'),
  ];
  const above = Math.max(1, Math.floor((rows - body.length - 5) / 2));
  const end = [
    ...quietStrip(stand.view.tone?.drill ?? null, columns, lettering),
    words(view.next, columns, 'dim'),
    ...wrapped(messageNow(stand)?.sentence ?? '', 'strong', columns),
    sittingStrip(view, columns),
    foot,
  ];
  return toHeight(
    [...toHeight([...Array.from({ length: above }, () => BLANK), ...body], rows - end.length), ...end],
    rows,
  ).map((painted) => fit(painted, columns));
};
