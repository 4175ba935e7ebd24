/**
 * The ladder, leaning away towards the target. The rung being worked at is near and thick, made of as many
 * pieces as clean repetitions are asked for, and cracked as far as it has come towards giving way; rungs already held
 * are solid, those still to come are broken lines, and a wall is one. A break stands for the rungs below a far target.
 */
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import { type Rungs, nearestRung } from '../../ladder/rule/rungs.ts';
import type { Bpm } from '../../common/units.ts';
import { type PaintedLine, type Segment, type Tone, fit, line, seg, widthOf } from '../paint.ts';
import { MARK_SIGNS, markSigns } from './mark-signs.ts';

export interface LadderView {
  readonly rungs: Rungs;
  readonly bpm: Bpm;
  readonly best: Bpm | null;
  readonly target: Bpm;
  readonly cleanRun: number;
  readonly cleanUp: number;
  readonly missedRun: number;
  readonly missedDown: number;
  /** The share of clean ones that the rule aims at; null where the runs move the ladder. */
  readonly aim: number | null;
  /** The rung that the line keeps falling from; null where none is known. */
  readonly wall: Bpm | null;
  /** Between which tempos the safe one lies; null where too little is known. */
  readonly safe: { readonly low: Bpm; readonly high: Bpm } | null;
  /** A clean or tense mark given early: the piece that is about to be filled. */
  readonly early: Mark | null;
  /** This sitting's marks by tempo, oldest first. */
  readonly marks: ReadonlyMap<Bpm, readonly Mark[]>;
  /** Tempos with marks from earlier days. */
  readonly triedBefore: ReadonlySet<Bpm>;
}

const LABEL_WIDTH = 6;
const NOTE_WIDTH = 13;
const NARROWEST = 8;

interface Frame {
  readonly height: number;
  /** Between the outer edges of the rails in the lowest row. */
  readonly span: number;
  /** Rows of the rung being worked at. */
  readonly thick: number;
  /** Rows from one rung to the next. */
  readonly pitch: number;
  /** Row of the thick rung's top. */
  readonly top: number;
}

function frameOf(width: number, height: number): Frame {
  const size = height >= 40 ? 3 : height >= 24 ? 2 : 1;
  const thick = Math.min(2 * size + 1, Math.max(1, height - 2));
  const above = Math.ceil((height - thick) * 0.6);
  return { height, span: width - LABEL_WIDTH - NOTE_WIDTH, thick, pitch: size, top: above };
}

/** The thick rung counts as one row of the lean, so that its pieces stand upright. */
function lowness(row: number, { height, top, thick }: Frame): number {
  const below = Math.max(0, height - 1 - Math.max(row, top + thick - 1));
  return row < top ? below + (top - row) : below;
}

/** How far the rails have closed in by this row, on either side. */
function insetAt(row: number, frame: Frame): number {
  const slope = Math.min(1, (frame.span - NARROWEST) / 2 / Math.max(1, lowness(0, frame)));
  return Math.round(lowness(row, frame) * slope);
}

const isThick = (row: number, { top, thick }: Frame): boolean => row >= top && row < top + thick;

/** A leaning or an upright piece of rail: leaning where the next row up is narrower. */
const rails = (row: number, frame: Frame): readonly [string, string] =>
  !isThick(row, frame) && insetAt(row - 1, frame) > insetAt(row, frame) ? ['╱', '╲'] : ['│', '│'];

/** How many rungs this row lies above (or below) the thick one; null between rungs. */
function stepsFrom(row: number, frame: Frame): number | null {
  const { top, thick, pitch } = frame;
  if (isThick(row, frame)) return 0;
  const rows = row < top ? top - row : top + thick - 1 - row;
  return rows % pitch === 0 ? rows / pitch : null;
}

function pieces(view: LadderView, width: number): readonly Segment[] {
  const { cleanUp, cleanRun, early } = view;
  const gaps = cleanUp - 1;
  const each = Math.floor((width - gaps) / cleanUp);
  if (each < 1) return [seg('█'.repeat(Math.round((width * cleanRun) / cleanUp)).padEnd(width, '░'), 'large')];
  const wider = width - gaps - each * cleanUp;
  return Array.from({ length: cleanUp }, (_, k): readonly Segment[] => {
    const size = each + (k < wider ? 1 : 0);
    const gap = k === 0 ? [] : [seg(' ')];
    if (k < cleanRun) return [...gap, seg('█'.repeat(size), 'large')];
    if (k === cleanRun && early) return [...gap, seg((early === 'clean' ? '▒' : '≈').repeat(size), 'large')];
    return [...gap, seg('░'.repeat(size), 'dim')];
  }).flat();
}

/** Misses in a row crack the rung from below, all the way across when it gives way. */
function cracked(view: LadderView, width: number): readonly Segment[] {
  const until = Math.round((width * view.missedRun) / view.missedDown);
  if (until === 0) return pieces(view, width);
  return fit([seg('╲╱'.repeat(until).slice(0, until), 'missed'), ...skipped(pieces(view, width), until)], width);
}

/** Without its first columns. */
function skipped(painted: PaintedLine, columns: number): PaintedLine {
  let left = columns;
  return painted.flatMap(({ text, tone }) => {
    const shown = [...text].slice(left).join('');
    left = Math.max(0, left - [...text].length);
    return shown === '' ? [] : [seg(shown, tone)];
  });
}

function rungLine(view: LadderView, bpm: Bpm, width: number): Segment {
  if (bpm === view.wall) return seg('▞'.repeat(width), 'strong');
  if (view.best !== null && bpm <= view.best) return seg('━'.repeat(width), 'plain');
  const tried = view.marks.has(bpm) || view.triedBefore.has(bpm);
  return tried ? seg('─'.repeat(width), 'dim') : seg('┄'.repeat(width), 'dim');
}

/** 'best=target': what this rung is. */
const tagOf = ({ best, target, wall }: LadderView, bpm: Bpm): string =>
  [...(bpm === best ? ['best'] : []), ...(bpm === wall ? ['wall'] : []), ...(bpm === target ? ['target'] : [])].join(
    '=',
  );

/** The last marks made here, and what the rung is. A column before it is the bracket's. */
function noteOf(view: LadderView, bpm: Bpm, further: string): PaintedLine {
  const tag = tagOf(view, bpm);
  const words = tag === '' ? [] : [seg(' '), seg(tag + further, 'best')];
  return line(...markSigns(view.marks.get(bpm) ?? [], NOTE_WIDTH - 1 - widthOf(words)), ...words);
}

/** '●●○ up': a run towards its end; '4/10 up' where its signs would take too much room. */
function runOf(run: number, of: number, sign: string, tone: Tone, word: string): PaintedLine {
  if (of + word.length + 1 > NOTE_WIDTH - 1) return line(seg(`${run}/${of} ${word}`));
  return line(seg(sign.repeat(run), tone), seg('○'.repeat(Math.max(0, of - run)), 'dim'), seg(` ${word}`, 'dim'));
}

const label = (bpm: Bpm, tone: Tone): Segment =>
  seg(
    bpmText(bpm)
      .padStart(LABEL_WIDTH - 1)
      .padEnd(LABEL_WIDTH),
    tone,
  );
const NO_LABEL = seg(' '.repeat(LABEL_WIDTH));

interface Row {
  readonly label: Segment;
  readonly fill: (width: number) => readonly Segment[];
  readonly note: PaintedLine;
  /** The rails are broken here. */
  readonly broken?: true;
  /** The tempo of its rung, where one is drawn at its own height. */
  readonly bpm?: Bpm;
}

const EMPTY: Row = { label: NO_LABEL, fill: (width) => [seg(' '.repeat(width))], note: [] };

/** Under a rule that aims a run of clean ones holds the rung, and no run moves it. */
const cleanNote = (view: LadderView): PaintedLine =>
  runOf(view.cleanRun, view.cleanUp, MARK_SIGNS.clean, 'clean', view.aim === null ? 'up' : 'held');

const missedNote = (view: LadderView): PaintedLine =>
  view.aim === null
    ? runOf(view.missedRun, view.missedDown, MARK_SIGNS.missed, 'missed', 'down')
    : line(seg(`aim ${Math.round(view.aim * 100)} %`, 'dim'));

/** Beside the rung: the run towards the next one, its marks, the run towards giving way. */
function thickRow(view: LadderView, row: number, thick: number): Row {
  const fill = (width: number) => pieces(view, width);
  if (row === Math.floor(thick / 2)) return { label: label(view.bpm, 'now'), fill, note: noteOf(view, view.bpm, '') };
  if (row === 0) return { ...EMPTY, fill, note: cleanNote(view) };
  if (row < thick - 1) return { ...EMPTY, fill };
  return { ...EMPTY, fill: (width) => cracked(view, width), note: missedNote(view) };
}

const thinRow = (view: LadderView, bpm: Bpm, further: string): Row => ({
  label: label(bpm, bpm === view.best || bpm === view.target ? 'strong' : 'dim'),
  fill: (width) => [rungLine(view, bpm, width)],
  note: noteOf(view, bpm, further),
});

const stepsTo = (view: LadderView, bpm: Bpm): number =>
  nearestRung(view.rungs, bpm) - nearestRung(view.rungs, view.bpm);

/** Best and target that lie above the uppermost rung there is room for, the highest first. */
function beyond(view: LadderView, highest: number): readonly Bpm[] {
  const marks = [view.target, ...(view.best === null || view.best === view.target ? [] : [view.best])];
  return marks.filter((bpm) => stepsTo(view, bpm) > highest).sort((a, b) => b - a);
}

/** A break in the ladder: so many rungs are not drawn. */
const breakRow = (hidden: number): Row => ({
  ...EMPTY,
  broken: true,
  note: hidden > 0 ? line(seg(`┆ ${hidden} ${hidden === 1 ? 'rung' : 'rungs'}`, 'dim')) : [],
});

/** The rows at the top that stand for what lies higher, from above: a far rung, a break, and so on. */
function farRows(view: LadderView, highest: number): readonly Row[] {
  let far = beyond(view, highest);
  far = beyond(view, highest - 2 * far.length);
  const shown = highest - 2 * far.length;
  if (shown < 1) return beyond(view, highest).map((bpm) => thinRow(view, bpm, ` ↑${stepsTo(view, bpm)}`));
  return far.flatMap((bpm, k) => {
    const below = far[k + 1];
    const hidden = stepsTo(view, bpm) - (below === undefined ? shown : stepsTo(view, below)) - 1;
    return [thinRow(view, bpm, ''), breakRow(hidden)];
  });
}

function rowAt(view: LadderView, row: number, frame: Frame): Row {
  const steps = stepsFrom(row, frame);
  if (steps === null) return EMPTY;
  if (steps === 0) return thickRow(view, row - frame.top, frame.thick);
  const here = nearestRung(view.rungs, view.bpm);
  const highest = Math.floor(frame.top / frame.pitch);
  const far = farRows(view, highest)[highest - steps];
  if (far !== undefined) return far;
  const bpm = view.rungs[here + steps];
  return bpm === undefined ? EMPTY : { ...thinRow(view, bpm, ''), bpm };
}

/** The rails end where the ladder does. */
function hasRung(view: LadderView, row: number, frame: Frame): boolean {
  const { top, thick, pitch } = frame;
  const rows = row < top ? top - row : Math.min(0, top + thick - 1 - row);
  const steps = Math.ceil(Math.abs(rows) / pitch) * Math.sign(rows);
  return view.rungs[nearestRung(view.rungs, view.bpm) + steps] !== undefined;
}

const NO_RUNG = 'no rung';

/** Rows of rungs whose tempo is safe, from the first to the last; null where none is drawn. */
function safeRows(view: LadderView, rows: readonly (Row | typeof NO_RUNG)[]): readonly [number, number] | null {
  const { safe } = view;
  if (!safe) return null;
  const within = rows.flatMap((row, k) => {
    const bpm = row === NO_RUNG ? undefined : row.bpm;
    return bpm !== undefined && bpm >= safe.low && bpm <= safe.high ? [k] : [];
  });
  const [first] = within;
  return first === undefined ? null : [first, within.at(-1) ?? first];
}

/** The bracket beside the safe rungs. */
function bracketAt(row: number, safe: readonly [number, number] | null): string {
  if (!safe || row < safe[0] || row > safe[1]) return ' ';
  if (safe[0] === safe[1]) return ']';
  return row === safe[0] ? '┐' : row === safe[1] ? '┘' : '│';
}

function drawnRow(view: LadderView, row: number, frame: Frame): Row | typeof NO_RUNG {
  if (!hasRung(view, row, frame)) return NO_RUNG;
  const drawn = rowAt(view, row, frame);
  return isThick(row, frame) ? { ...drawn, bpm: view.bpm } : drawn;
}

/** Exactly `height` lines of `width` columns. */
export function ladderFigure(view: LadderView, width: number, height: number): readonly PaintedLine[] {
  const frame = frameOf(width, height);
  const rows = Array.from({ length: height }, (_, row) => drawnRow(view, row, frame));
  const safe = safeRows(view, rows);
  return rows.map((drawn, row) => {
    if (drawn === NO_RUNG) return fit([], width);
    const inset = insetAt(row, frame);
    const [left, right] = drawn.broken ? ['┆', '┆'] : rails(row, frame);
    const inside = Math.max(0, frame.span - 2 * inset - 2);
    const leaning = [seg(' '.repeat(inset) + left), ...drawn.fill(inside), seg(right + ' '.repeat(inset))];
    return fit([drawn.label, ...leaning, seg(bracketAt(row, safe)), ...drawn.note], width);
  });
}
