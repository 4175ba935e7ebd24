/** The practice screen as a drawing: the ladder in the middle, the tempo in figures to read from across the room. */
import { bpmText } from '../../music/time/tempo-text.ts';
import { NO_MARKS, cleanShare, countsOf, type LineHistory, repetitions } from '../../ladder/speed/line-history.ts';
import type { Wall } from '../../ladder/wall/wall.ts';
import type { LineEstimate } from '../../ladder/speed/speed-knowledge.ts';
import type { Practice } from '../../practice/line/line-on-stand.ts';
import type { Output } from '../../practice/stand.ts';
import type { RunView } from '../../plan/run/run-view.ts';
import { sittingLine, sittingStrip } from './sitting-lines.ts';
import { beatFigure } from '../components/beat-posts.ts';
import { digits, digitsWidth } from '../components/tall-figures.ts';
import { ladderFigure } from '../components/ladder-figure.ts';
import { markSigns } from '../components/mark-signs.ts';
import { BLANK, type PaintedLine, beside, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import { ladderView, nextLines, phaseLine, speedLine } from './practice-words.ts';

export interface PracticeScreen {
  readonly practice: Practice;
  readonly history: LineHistory | null;
  /** The player's own day. */
  readonly today: string;
  readonly output: Output | null;
  /** The running routine; null outside a sitting. */
  readonly view: RunView | null;
  /** What there is to say about ease, or null. */
  readonly ease: string | null;
  /** The wall the line is in front of. */
  readonly wall: Wall | null;
  /** The speed estimate of the line. */
  readonly estimate: LineEstimate | null;
  /** Drawn below the ladder: the notes, and the keys. */
  readonly strip: readonly PaintedLine[];
  readonly foot: PaintedLine;
}

function header(
  { exercise, key, fingering, line: { articulation }, droneOn, model }: Practice,
  width: number,
): PaintedLine {
  const right = [...(model ? ['model on'] : []), ...(droneOn ? ['drone on'] : [])].map((word) => `${word} `).join(' ');
  const fingers = fingering === 'alternate' ? '  alternate fingering' : '';
  const words = [seg(` ${exercise.title}`, 'strong'), seg(`  ${key}  `, 'now'), seg(articulation + fingers, 'strong')];
  return [...fit(line(...words), width - right.length), seg(right, 'now')];
}

const banner = (practice: Practice, width: number): PaintedLine => {
  const sounding = practice.phase !== 'ready' && practice.phase !== 'stopped';
  return fit(line(seg(sounding ? '▶ ' : '  ', 'now'), seg(phaseLine(practice), sounding ? 'now' : 'strong')), width);
};

/** The share of clean ones first: it says more than their number. */
function shareLines({ practice, history, today }: PracticeScreen, width: number): readonly PaintedLine[] {
  const counts = history ? countsOf(history) : NO_MARKS;
  const share = cleanShare(counts);
  const of = history ? countsOf(history, today) : NO_MARKS;
  const all = repetitions(of);
  const now = all === 0 ? 'no marks yet today' : `${of.clean} of ${all} clean today`;
  const sitting = practice.done.flatMap(({ mark }) => (mark ? [mark] : []));
  const ever = share === null ? '' : `in all ${Math.round(share * 100)} % of ${repetitions(counts)}`;
  const signs = sitting.length === 0 ? [] : [line(...markSigns(sitting, width))];
  return [line(seg(now, 'strong')), ...signs, ...(ever === '' ? [] : [line(seg(ever, 'dim'))])];
}

/** What the marks say: with few of them the interval is wide, and says so. */
function estimateLines(estimate: LineEstimate | null, { climb }: Practice): readonly PaintedLine[] {
  if (!estimate || (estimate.marks === 0 && !estimate.siblings)) return [];
  const whole = (bpm: number): string => `${climb.bpm % 1 === 0 ? Math.round(bpm) : bpm.toFixed(1)}`;
  return [
    line(
      seg(`9 in 10 clean at ${whole(estimate.bpm)}`),
      seg(` (${whole(estimate.low)}–${whole(estimate.high)})`, 'dim'),
    ),
  ];
}

/** As airy as fits: what is said is worth more than the space around it. */
function side(screen: PracticeScreen, width: number, height: number): readonly PaintedLine[] {
  const airy = sideLines(screen, width, height, [BLANK]);
  return (airy.length <= height ? airy : sideLines(screen, width, height, [])).slice(0, height);
}

function sideLines(
  screen: PracticeScreen,
  width: number,
  height: number,
  space: readonly PaintedLine[],
): readonly PaintedLine[] {
  const { practice } = screen;
  const tempo = bpmText(practice.way?.way.passages[practice.way.at]?.bpm ?? practice.climb.bpm);
  const roomy = height >= 24 && digitsWidth(tempo, 2) <= width;
  const scale = roomy ? 2 : 1;
  const air = roomy ? space : [];
  const [up, down] = nextLines(practice);
  const beats = practice.heard?.beatsInBar ?? practice.exercise.meter.count;
  return [
    ...digits(tempo, scale, 'now'),
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
    ...shareLines(screen, width),
    ...estimateLines(screen.estimate, practice),
  ];
}

/** Where on the way round a wall. */
function wayLine({ way }: Practice): string | null {
  const passage = way?.way.passages[way.at];
  if (!way || !passage) return null;
  return (
    `${way.way.title}, ${way.at + 1} of ${way.way.passages.length}: ${passage.say} at ` +
    `${bpmText(passage.bpm)} (${way.done + 1} of ${passage.repetitions})`
  );
}

/** One sentence: the hint of the moment, or what the sound has to say, or nothing. It may take more than one line. */
const remark = ({ practice, output, view, ease, wall }: PracticeScreen, columns: number): readonly PaintedLine[] => {
  const { cue } = practice.cueing;
  const way = wayLine(practice);
  const ahead = wall && !practice.way && practice.done.length === 0 ? `${wall.sentence} v shows ways round it.` : null;
  // The answer to the last key, then the body, then the work.
  const [first] = [view?.question, practice.hint, ease, way, ahead, practice.remark, cue, view?.remark].filter(
    (said) => said,
  );
  if (first) return wrapped(first, first === cue ? 'now' : 'strong', columns);
  return output?.state === 'silent' ? wrapped(output.sentence, 'dim', columns) : [BLANK];
};

/** Exactly `rows` lines of at most `columns`. */
export function practiceScreen(screen: PracticeScreen, columns: number, rows: number): readonly PaintedLine[] {
  const { practice, history, view, strip, foot } = screen;
  const sitting = view ? [sittingLine(view, columns), sittingStrip(view, columns)] : [];
  const said = remark(screen, columns);
  const height = rows - 2 - said.length - strip.length - sitting.length - (rows >= 30 ? 2 : 0);
  const sideWidth = columns >= 110 ? 46 : 30;
  const ladderWidth = Math.min(columns - sideWidth - 2, 76);
  const body = beside(
    {
      lines: ladderFigure(ladderView(practice, history, screen.today), ladderWidth, height),
      width: columns - sideWidth,
    },
    { lines: toHeight(side(screen, sideWidth, height), height), width: sideWidth },
  );
  const air = rows >= 30 ? [BLANK] : [];
  const all = [header(practice, columns), ...air, ...body, ...air, ...strip, ...sitting, ...said, foot];
  return toHeight(all, rows).map((painted) => fit(painted, columns));
}
