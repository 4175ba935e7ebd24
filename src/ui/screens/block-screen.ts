/** The screen of a block without a ladder (body, long tones, a rest): the time left in tall figures, one cue. */
import { runViewNow } from '../../practice/sitting/run-now.ts';
import type { Stand } from '../../practice/stand.ts';
import { withSigns } from '../../music/pitch/note-names.ts';
import { BREATH_CAUTION, secondsOnBreath } from '../../plan/run/breaths.ts';
import type { RunItem } from '../../plan/run/run-items.ts';
import type { RunView } from '../../plan/run/run-view.ts';
import { droneWord } from '../../practice/line/drone-on-stand.ts';
import { messageNow } from '../../practice/messages.ts';
import { layerOfBreath } from '../../practice/sitting/layer-now.ts';
import { exerciseNow, itemNow } from '../../practice/sitting/sitting.ts';
import { digits, digitsWidth } from '../components/tall-figures.ts';
import { breathShape } from '../components/breath-shape.ts';
import { BLANK, type PaintedLine, fit, line, seg, toHeight, widthOf, wrapped } from '../paint.ts';
import { columnsOf } from '../text-width.ts';
import { type DrawScreen, type On, keyOfCanvas } from './screen.ts';
import { aheadOfTone } from '../practice/turn-words.ts';
import { quietStrip } from '../practice/practice-strip.ts';
import { isTimeUp, sittingStrip, timeIsUp } from './sitting-lines.ts';

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
  centred(line(seg(text, tone)), columnsOf(text), columns);

function tallTime(left: string, columns: number, scale: number): readonly PaintedLine[] {
  return digits(left, scale, 'large').map((row) => centred(row, digitsWidth(left, scale), columns));
}

/** A sentence in the middle, over as many lines as it needs. */
const centredWords = (text: string, columns: number): readonly PaintedLine[] =>
  wrapped(text, 'strong', columns).map((painted) => {
    const trimmed = painted
      .map(({ text: part }) => part)
      .join('')
      .trim();
    return words(trimmed, columns, 'strong');
  });

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

/**
 * The breath at hand as a shape, where the exercise says how long its parts are; with empty lungs
 * the caution, until one breath is counted.
 */
function shapeLines(stand: Stand, item: RunItem, columns: number, height: number): readonly PaintedLine[] {
  const each = exerciseNow(stand)?.eachBreath;
  if (!stand.sitting || !each || item.breaths === null) return [];
  const { run } = stand.sitting;
  const shape = breathShape(each, secondsOnBreath(run, item), columns, height);
  const lines = shape.map((painted) => centred(painted, widthOf(painted), columns));
  return run.breaths === 0 && each.wait > 0 ? [...lines, words(BREATH_CAUTION, columns, 'strong')] : lines;
}

/** 'B♭ · drone on' */
function keyLine({ view: { tone } }: On<'block'>): string {
  return tone ? `${withSigns(tone.line.key)} · drone ${droneWord(tone.line.key, tone)}` : '';
}

/** 'next time D, then A' */
function aheadLine(stand: On<'block'>, columns: number): readonly PaintedLine[] {
  const exercise = exerciseNow(stand);
  const { tone } = stand.view;
  const ahead = exercise && tone ? aheadOfTone(stand, exercise, tone) : '';
  return ahead ? [words(ahead, columns, 'dim')] : [];
}

/** What this breath is for: ' SING '. */
function layerLine(stand: On<'block'>, columns: number): readonly PaintedLine[] {
  const exercise = exerciseNow(stand);
  const layer = exercise && layerOfBreath(exercise, stand.sitting?.run.breaths ?? 0);
  return layer ? [words(` ${[...layer.toUpperCase()].join(' ')} `, columns, 'now')] : [];
}

/** What stands in the middle: the title, the time in the largest figures there is room for, breaths, one cue. */
function bodyOf(stand: On<'block'>, view: RunView, item: RunItem, columns: number, room: number) {
  const key = keyLine(stand);
  const cues = item.cues.length > 0 ? item.cues : (exerciseNow(stand)?.cues ?? []);
  const shape = shapeLines(stand, item, columns, room >= 26 ? 8 : 4);
  const lines = (scale: number, air: readonly PaintedLine[]): readonly PaintedLine[] => [
    words(view.title, columns, 'strong'),
    words(key || view.part, columns, key ? 'now' : 'dim'),
    ...aheadLine(stand, columns),
    ...layerLine(stand, columns),
    ...air,
    ...tallTime(view.left, columns, scale),
    ...air,
    words(`of ${view.of}${view.count ? ` · ${view.count}` : ''}`, columns, 'plain'),
    breathLine(stand, columns),
    ...shape,
    ...air,
    ...centredWords(cueNow(cues, item.played), columns),
    words(item.material ?? '', columns, 'plain'),
    words(exerciseNow(stand)?.spot ?? '', columns, 'strong'),
  ];
  const fits = (scale: number): boolean =>
    lines(scale, [BLANK]).length <= room && digitsWidth(view.left, scale) <= columns - 4;
  // Beside the shape of the breath the time is the smaller.
  const scale = (shape.length > 0 ? [2, 1] : [4, 3, 2, 1]).find(fits);
  return scale ? lines(scale, [BLANK]) : lines(1, []).filter((painted) => painted.length > 0);
}

export const blockScreen: DrawScreen<'block'> = (stand, canvas) => {
  const { columns, rows, lettering, foot } = canvas;
  const view = runViewNow(stand);
  const item = itemNow(stand);
  if (!view || !item) return toHeight([foot], rows);
  const next = isTimeUp(view) ? timeIsUp(view, columns, keyOfCanvas(canvas)) : words(view.next, columns, 'dim');
  const end = [
    ...quietStrip(stand.view.tone?.drill ?? null, columns, lettering),
    next,
    ...wrapped(messageNow(stand)?.sentence ?? '', 'strong', columns),
    sittingStrip(view, columns),
    foot,
  ];
  const body = bodyOf(stand, view, item, columns, rows - end.length);
  const above = Math.max(0, Math.floor((rows - body.length - end.length) / 2));
  return toHeight(
    [...toHeight([...Array.from({ length: above }, () => BLANK), ...body], rows - end.length), ...end],
    rows,
  ).map((painted) => fit(painted, columns));
};
