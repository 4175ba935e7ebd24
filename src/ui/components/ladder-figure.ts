/**
 * The ladder, leaning away towards the target. The rung being worked at is near and thick, made of as many
 * pieces as clean repetitions are asked for; rungs already held are solid, those still to come are broken lines.
 */
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import { type Rungs, nearestRung } from '../../ladder/rule/rungs.ts';
import type { Bpm } from '../../common/units.ts';
import { type PaintedLine, type Segment, type Tone, fit, line, seg, widthOf } from '../paint.ts';
import { markSigns } from './mark-signs.ts';

export interface LadderView {
  readonly rungs: Rungs;
  readonly bpm: Bpm;
  readonly best: Bpm | null;
  readonly target: Bpm;
  readonly cleanRun: number;
  readonly cleanUp: number;
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
  const roomy = height >= 24;
  const thick = roomy ? 5 : 3;
  const above = Math.ceil((height - thick) * 0.6);
  return { height, span: width - LABEL_WIDTH - NOTE_WIDTH, thick, pitch: roomy ? 2 : 1, top: above };
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
  if (each < 1) return [seg('█'.repeat(Math.round((width * cleanRun) / cleanUp)).padEnd(width, '░'), 'now')];
  const wider = width - gaps - each * cleanUp;
  return Array.from({ length: cleanUp }, (_, k): readonly Segment[] => {
    const size = each + (k < wider ? 1 : 0);
    const gap = k === 0 ? [] : [seg(' ')];
    if (k < cleanRun) return [...gap, seg('█'.repeat(size), 'now')];
    if (k === cleanRun && early === 'clean') return [...gap, seg('▒'.repeat(size), 'now')];
    return [...gap, seg('░'.repeat(size), 'dim')];
  }).flat();
}

function rungLine(view: LadderView, bpm: Bpm, width: number): Segment {
  if (view.best !== null && bpm <= view.best) return seg('━'.repeat(width), 'plain');
  const tried = view.marks.has(bpm) || view.triedBefore.has(bpm);
  return tried ? seg('─'.repeat(width), 'dim') : seg('┄'.repeat(width), 'dim');
}

function tagOf(view: LadderView, bpm: Bpm): Segment | null {
  const isBest = bpm === view.best;
  const isTarget = bpm === view.target;
  if (isBest && isTarget) return seg('best=target', 'best');
  if (isBest) return seg('best', 'best');
  return isTarget ? seg('target', 'target') : null;
}

function noteOf(view: LadderView, bpm: Bpm, further: string): PaintedLine {
  const tag = tagOf(view, bpm);
  const words = tag ? [seg(' '), seg(tag.text + further, tag.tone)] : [];
  const room = NOTE_WIDTH - 1 - widthOf(words);
  return line(seg(' '), ...markSigns(view.marks.get(bpm) ?? [], room), ...words);
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
}

const EMPTY: Row = { label: NO_LABEL, fill: (width) => [seg(' '.repeat(width))], note: [] };

function thickRow(view: LadderView, isMiddle: boolean): Row {
  const fill = (width: number) => pieces(view, width);
  return isMiddle ? { label: label(view.bpm, 'now'), fill, note: noteOf(view, view.bpm, '') } : { ...EMPTY, fill };
}

const thinRow = (view: LadderView, bpm: Bpm, further: string): Row => ({
  label: label(bpm, bpm === view.best || bpm === view.target ? 'strong' : 'dim'),
  fill: (width) => [rungLine(view, bpm, width)],
  note: noteOf(view, bpm, further),
});

/** Best and target above what fits are shown on the uppermost rungs, with how far up they are. */
function beyond(view: LadderView, highest: number): readonly Bpm[] {
  const here = nearestRung(view.rungs, view.bpm);
  const marks = [view.target, ...(view.best === null || view.best === view.target ? [] : [view.best])];
  return marks.filter((bpm) => nearestRung(view.rungs, bpm) - here > highest).sort((a, b) => b - a);
}

function rowAt(view: LadderView, row: number, frame: Frame): Row {
  const steps = stepsFrom(row, frame);
  if (steps === null) return EMPTY;
  if (steps === 0) return thickRow(view, row === frame.top + Math.floor(frame.thick / 2));
  const here = nearestRung(view.rungs, view.bpm);
  const highest = Math.floor(frame.top / frame.pitch);
  const far = beyond(view, highest)[highest - steps];
  if (far !== undefined) return thinRow(view, far, ` ↑${nearestRung(view.rungs, far) - here}`);
  const bpm = view.rungs[here + steps];
  return bpm === undefined ? EMPTY : thinRow(view, bpm, '');
}

/** The rails end where the ladder does. */
function hasRung(view: LadderView, row: number, frame: Frame): boolean {
  const { top, thick, pitch } = frame;
  const rows = row < top ? top - row : Math.min(0, top + thick - 1 - row);
  const steps = Math.ceil(Math.abs(rows) / pitch) * Math.sign(rows);
  return view.rungs[nearestRung(view.rungs, view.bpm) + steps] !== undefined;
}

/** Exactly `height` lines of `width` columns. */
export function ladderFigure(view: LadderView, width: number, height: number): readonly PaintedLine[] {
  const frame = frameOf(width, height);
  return Array.from({ length: height }, (_, row) => {
    if (!hasRung(view, row, frame)) return fit([], width);
    const { label: tempo, fill, note } = rowAt(view, row, frame);
    const inset = insetAt(row, frame);
    const [left, right] = rails(row, frame);
    const inside = frame.span - 2 * inset - 2;
    const painted = [tempo, seg(' '.repeat(inset) + left), ...fill(inside), seg(right + ' '.repeat(inset)), ...note];
    return fit(painted, width);
  });
}
