/** The practice screen as a drawing: the ladder in the middle, the tempo in figures to read from across the room. */
import { lineName } from '../../ladder/line.ts';
import type { LineEstimate } from '../../ladder/speed/speed-knowledge.ts';
import { type LineHistory, NO_MARKS, cleanShare, countsOf, repetitions } from '../../ladder/speed/line-history.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { climbNow, isRunning, marksNow, tempoNow } from '../../practice/line/line-state.ts';
import type { Practice } from '../../practice/line/line-on-stand.ts';
import { messageNow } from '../../practice/messages.ts';
import { estimateFor } from '../../practice/sitting/line-speed.ts';
import { beatFigure } from '../components/beat-posts.ts';
import { ladderFigure } from '../components/ladder-figure.ts';
import { markSigns } from '../components/mark-signs.ts';
import { digits, digitsWidth } from '../components/tall-figures.ts';
import { BLANK, type PaintedLine, beside, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import { practiceStrip } from './practice-strip.ts';
import { ladderView, nextLines, phaseLine, speedLine } from './practice-words.ts';
import type { DrawScreen, On } from './screen.ts';
import { sittingLine, sittingStrip, viewOf } from './sitting-lines.ts';

function header({ exercise, key, fingering, line: { articulation }, droneState, model }: Practice, width: number) {
  const on = [...(model ? ['model on'] : []), ...(droneState === 'on' ? ['drone on'] : [])];
  const right = on.map((word) => `${word} `).join(' ');
  const fingers = fingering === 'alternate' ? '  alternate fingering' : '';
  const words = [seg(` ${exercise.title}`, 'strong'), seg(`  ${key}  `, 'now'), seg(articulation + fingers, 'strong')];
  return [...fit(line(...words), width - right.length), seg(right, 'now')];
}

function banner(practice: Practice, width: number): PaintedLine {
  const sounding = isRunning(practice);
  return fit(line(seg(sounding ? '▶ ' : '  ', 'now'), seg(phaseLine(practice), sounding ? 'now' : 'strong')), width);
}

/** What the side panel is drawn from. */
interface Side {
  readonly practice: Practice;
  readonly history: LineHistory | null;
  readonly estimate: LineEstimate | null;
  /** The player's own day. */
  readonly today: string;
}

/** The share of clean ones first: it says more than their number. */
function shareLines({ practice, history, today }: Side, width: number): readonly PaintedLine[] {
  const counts = history ? countsOf(history) : NO_MARKS;
  const share = cleanShare(counts);
  const of = history ? countsOf(history, today) : NO_MARKS;
  const all = repetitions(of);
  const now = all === 0 ? 'no marks yet today' : `${of.clean} of ${all} clean today`;
  const sitting = marksNow(practice);
  const ever = share === null ? '' : `in all ${Math.round(share * 100)} % of ${repetitions(counts)}`;
  const signs = sitting.length === 0 ? [] : [line(...markSigns(sitting, width))];
  return [line(seg(now, 'strong')), ...signs, ...(ever === '' ? [] : [line(seg(ever, 'dim'))])];
}

/** What the marks say: with few of them the interval is wide, and says so. */
function estimateLines({ estimate, practice }: Side): readonly PaintedLine[] {
  if (!estimate || (estimate.marks === 0 && !estimate.siblings)) return [];
  const isWhole = climbNow(practice).bpm % 1 === 0;
  const shown = (bpm: number): string => `${isWhole ? Math.round(bpm) : bpm.toFixed(1)}`;
  return [
    line(
      seg(`9 in 10 clean at ${shown(estimate.bpm)}`),
      seg(` (${shown(estimate.low)}–${shown(estimate.high)})`, 'dim'),
    ),
  ];
}

/** As airy as fits: what is said is worth more than the space around it. */
function sidePanel(side: Side, width: number, height: number): readonly PaintedLine[] {
  const airy = sideLines(side, width, height, [BLANK]);
  return (airy.length <= height ? airy : sideLines(side, width, height, [])).slice(0, height);
}

function sideLines(side: Side, width: number, height: number, space: readonly PaintedLine[]): readonly PaintedLine[] {
  const { practice } = side;
  const tempo = bpmText(tempoNow(practice));
  const roomy = height >= 24 && digitsWidth(tempo, 2) <= width;
  const air = roomy ? space : [];
  const [up, down] = nextLines(practice);
  const beats = practice.heard?.beatsInBar ?? practice.exercise.meter.count;
  return [
    ...digits(tempo, roomy ? 2 : 1, 'now'),
    ...air,
    line(seg(speedLine(practice, width))),
    ...space,
    ...beatFigure({ beats, heard: practice.heard?.beat ?? null }, width, roomy ? 5 : 3),
    ...air,
    banner(practice, width),
    ...air,
    line(seg(up)),
    line(seg(down, 'dim')),
    ...air,
    ...shareLines(side, width),
    ...estimateLines(side),
  ];
}

/** One sentence; it may take more than one line. */
function remark(stand: On<'practice'>, columns: number): readonly PaintedLine[] {
  const message = messageNow(stand);
  if (!message) return [BLANK];
  const tone = message.kind === 'cue' ? 'now' : message.kind === 'sound' ? 'dim' : 'strong';
  return wrapped(message.sentence, tone, columns);
}

function sideOf({ known, view }: On<'practice'>): Side {
  const { practice } = view.work;
  const history = known.lines[lineName(practice.line)] ?? null;
  return { practice, history, estimate: estimateFor(known, practice), today: known.today };
}

export const practiceScreen: DrawScreen<'practice'> = (stand, { columns, rows, lettering, foot }) => {
  const side = sideOf(stand);
  const { practice, history, today } = side;
  const run = viewOf(stand);
  const sitting = run ? [sittingLine(run, columns), sittingStrip(run, columns)] : [];
  const said = remark(stand, columns);
  const strip = practiceStrip(practice, columns, rows, lettering);
  const air = rows >= 30 ? [BLANK] : [];
  const height = rows - 2 - said.length - strip.length - sitting.length - 2 * air.length;
  const sideWidth = columns >= 110 ? 46 : 30;
  const ladderWidth = Math.min(columns - sideWidth - 2, 76);
  const body = beside(
    { lines: ladderFigure(ladderView(practice, history, today), ladderWidth, height), width: columns - sideWidth },
    { lines: toHeight(sidePanel(side, sideWidth, height), height), width: sideWidth },
  );
  const all = [header(practice, columns), ...air, ...body, ...air, ...strip, ...sitting, ...said, foot];
  return toHeight(all, rows).map((painted) => fit(painted, columns));
};
