/** Beside the ladder: the tempo, the state as a shape, what the next marks would do, and what is known of the line. */
import { safeTempo, safeTempoText } from '../../ladder/speed/safe-tempo.ts';
import type { LineEstimate } from '../../ladder/speed/speed-knowledge.ts';
import { type LineHistory, NO_MARKS, cleanShare, countsOf, repetitions } from '../../ladder/speed/line-history.ts';
import { keyLetters } from '../../music/pitch/key-letters.ts';
import { beatsOfBar } from '../../music/time/meter.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Practice } from '../../practice/line/line-on-stand.ts';
import { climbNow, isRunning, marksNow, tempoNow } from '../../practice/line/line-state.ts';
import { beatFigure } from '../components/beat-posts.ts';
import { markSigns } from '../components/mark-signs.ts';
import { stateShape } from '../components/state-shape.ts';
import { digitsWidth, largestCells, tallText, tallWidth } from '../components/tall-figures.ts';
import { BLANK, type PaintedLine, fit, line, seg, toHeight } from '../paint.ts';
import { type KeyOf, stateNow } from './practice-state.ts';
import { nextLines, phaseLine, speedLine } from './practice-words.ts';

/** What the side panel is drawn from. */
export interface Side {
  readonly practice: Practice;
  readonly history: LineHistory | null;
  readonly estimate: LineEstimate | null;
  /** The player's own day. */
  readonly today: string;
  readonly keyOf: KeyOf;
}

function banner(practice: Practice, width: number): PaintedLine {
  const sounding = isRunning(practice);
  return fit(line(seg(sounding ? '▶ ' : '  ', 'now'), seg(phaseLine(practice), 'strong')), width);
}

/** The share of clean ones first: it says more than their number. */
function todayLine({ history, today }: Side): PaintedLine {
  const of = history ? countsOf(history, today) : NO_MARKS;
  const all = repetitions(of);
  return line(seg(all === 0 ? 'no marks yet today' : `${of.clean} of ${all} clean today`, 'strong'));
}

function everLines({ history }: Side): readonly PaintedLine[] {
  const counts = history ? countsOf(history) : NO_MARKS;
  const share = cleanShare(counts);
  return share === null
    ? []
    : [line(seg(`in all ${Math.round(share * 100)} % of ${repetitions(counts)} clean`, 'dim'))];
}

function signLines({ practice }: Side, width: number): readonly PaintedLine[] {
  const marks = marksNow(practice);
  return marks.length === 0 ? [] : [line(...markSigns(marks, width))];
}

/** The tempo that is safe, nine times in ten; nothing is claimed before it is known well enough to act on. */
function estimateLines({ estimate, practice }: Side, width: number): readonly PaintedLine[] {
  if (!estimate || estimate.marks === 0) return [];
  const isWhole = climbNow(practice).bpm % 1 === 0;
  const long = safeTempoText(estimate, (bpm) => `${isWhole ? Math.round(bpm) : bpm.toFixed(1)}`);
  const text = long.length <= width ? long : long.replace(/\(between (\S+) and/, '($1 to');
  return [line(seg(text, safeTempo(estimate).known === 'too little' ? 'dim' : 'plain'))];
}

/** The tempo in the largest figures that leave room for the rest; beside it the key, where keys come and go. */
function tempoLines({ practice }: Side, width: number, height: number): readonly PaintedLine[] {
  const tempo = bpmText(tempoNow(practice));
  const scale = [3, 2, 1].find((one) => height >= 12 * one - (one === 1 ? 4 : 0) && digitsWidth(tempo, one) <= width);
  if (!scale) return [line(seg(`${tempo}`, 'large'))];
  const figures = tallText(tempo, { columns: 2 * scale, rows: scale });
  if (!practice.exercise.rotation) return figures.map((row) => line(seg(row, 'large')));
  return withKey(figures, keyLetters(practice.key), width);
}

function withKey(figures: readonly string[], letters: string, width: number): readonly PaintedLine[] {
  const left = width - [...(figures[0] ?? '')].length - 4;
  const size = largestCells(letters, left, figures.length);
  if (!size || size.rows * 5 < figures.length) return figures.map((row) => line(seg(row, 'large')));
  const key = tallText(letters, size);
  const gap = ' '.repeat(width - [...(figures[0] ?? '')].length - tallWidth(letters, size));
  return figures.map((row, k) => line(seg(row + gap, 'large'), seg(key[k] ?? '', 'large')));
}

/** Lines that are there or not, in the order in which they stand. */
interface Parts {
  readonly speed: readonly PaintedLine[];
  readonly posts: number;
  readonly banner: readonly PaintedLine[];
  readonly next: readonly PaintedLine[];
  readonly today: readonly PaintedLine[];
  readonly signs: readonly PaintedLine[];
  readonly ever: readonly PaintedLine[];
  readonly estimate: readonly PaintedLine[];
  readonly shape: number;
  readonly air: number;
}

/** Of two wishes for the same part the later one asks for more. */
type Wish = { readonly [Part in keyof Parts]?: Parts[Part] };

const EMPTY: Parts = {
  speed: [],
  posts: 0,
  banner: [],
  next: [],
  today: [],
  signs: [],
  ever: [],
  estimate: [],
  shape: 0,
  air: 0,
};

/** Lines that stand apart where there is room for air. */
const GAPS = 4;

const rowsOf = (parts: Parts): number =>
  Object.entries(parts).reduce((sum, [name, part]) => {
    const rows = typeof part === 'number' ? part : part.length;
    return sum + (name === 'air' ? rows * GAPS : rows);
  }, 0);

/** What is wanted, the most wanted first; what does not fit is passed over. */
function wishes(side: Side, width: number): readonly Wish[] {
  const { practice } = side;
  const [up, down] = nextLines(practice, width).map((text, k) => line(seg(text, k === 0 ? 'plain' : 'dim')));
  const tallest = Math.round(width * 0.42);
  return [
    { next: [up ?? BLANK] },
    { shape: 4 },
    { shape: 5 },
    { today: [todayLine(side)] },
    { speed: [line(seg(speedLine(practice, width)))] },
    { next: [up ?? BLANK, down ?? BLANK] },
    { posts: 2 },
    { estimate: estimateLines(side, width) },
    { shape: 6 },
    { shape: Math.min(8, tallest) },
    { posts: 3 },
    { signs: signLines(side, width) },
    { ever: everLines(side) },
    { air: 1 },
    ...[10, 12, 14, 16, 20, 24].filter((rows) => rows <= tallest).map((shape) => ({ shape })),
    { posts: 5 },
  ];
}

/** As much as fits: tempo and shape always, the rest in the order of the wishes. */
export function sidePanel(side: Side, width: number, height: number): readonly PaintedLine[] {
  const tempo = tempoLines(side, width, height);
  const left = height - tempo.length;
  // The state in plain words keeps the figures of tempo and state apart.
  const words = left >= 4 ? [banner(side.practice, width)] : [];
  const least: Parts = { ...EMPTY, banner: words, shape: Math.max(1, Math.min(3, left)) };
  const parts = wishes(side, width).reduce<Parts>((so, wish) => {
    const more = { ...so, ...wish };
    return rowsOf(more) <= left ? more : so;
  }, least);
  return toHeight(linesOf(side, tempo, parts, width), height);
}

function linesOf(side: Side, tempo: readonly PaintedLine[], parts: Parts, width: number): readonly PaintedLine[] {
  const { practice, keyOf } = side;
  const { meter, beat } = practice.exercise;
  const beats = beatsOfBar(meter, beat).map(({ startsGroup }) => startsGroup);
  const air = Array.from({ length: parts.air }, () => BLANK);
  return [
    ...tempo,
    ...parts.speed,
    ...parts.banner,
    ...air,
    ...stateShape(stateNow(practice, keyOf), width, parts.shape),
    ...air,
    // What the next marks would do stands between two figures, so that they do not grow into one.
    ...parts.next,
    ...air,
    ...beatFigure({ beats, heard: practice.heard?.beat ?? null }, width, parts.posts),
    ...air,
    ...parts.today,
    ...parts.signs,
    ...parts.ever,
    ...parts.estimate,
  ];
}
