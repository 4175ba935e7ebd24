/** The practice screen as a drawing: the ladder in the middle, tempo and state to be read from across the room. */
import { runViewNow } from '../../practice/sitting/run-now.ts';
import { safeTempo } from '../../ladder/speed/safe-tempo.ts';
import { lineName } from '../../ladder/line.ts';
import { withSigns } from '../../music/pitch/note-names.ts';
import { droneWord } from '../../practice/line/drone-on-stand.ts';
import type { Practice } from '../../practice/line/line-on-stand.ts';
import { messageNow } from '../../practice/messages.ts';
import { estimateFor, wallFor } from '../../practice/sitting/line-speed.ts';
import { BLANK, type PaintedLine, beside, fit, line, seg, toHeight, widthOf, wrapped } from '../paint.ts';
import { leftSide } from './left-side.ts';
import { materialLines, practiceStrip } from './practice-strip.ts';
import { type SpeedKnown, ladderView } from './practice-words.ts';
import { aheadNow } from './turn-words.ts';
import { type Canvas, type DrawScreen, type On, keyOfCanvas } from '../screens/screen.ts';
import { type Side, sidePanel } from './side-panel.ts';
import { sittingLine, sittingStrip } from '../screens/sitting-lines.ts';

/** Between the line's name and what comes after it. */
const AIR = '   ';

function header(practice: Practice, ahead: (room: number) => string, width: number) {
  const { exercise, key, fingering, droneState, model } = practice;
  const drone = droneState === 'on' ? [`drone ${droneWord(key, practice)}`] : [];
  const on = [...(model ? ['model on'] : []), ...drone];
  const right = on.map((word) => `${word} `).join(' ');
  const fingers = fingering === 'alternate' ? '  alternate fingering' : '';
  const words = [
    seg(` ${exercise.title}`, 'strong'),
    seg(`  ${withSigns(key)}  `, 'now'),
    seg(practice.line.articulation + fingers, 'strong'),
  ];
  const coming = ahead(width - right.length - widthOf(words) - AIR.length);
  return [...fit(line(...words, seg(coming && AIR + coming, 'dim')), width - right.length), seg(right, 'now')];
}

/** Rows that ladder and state need to be read; a remark never takes them. */
const LEAST_BODY = 11;

/** One sentence over as many lines as may be taken; cut short by '…' where it needs more. */
function remark(stand: On<'practice'>, columns: number, most: number): readonly PaintedLine[] {
  const message = messageNow(stand);
  if (!message) return [BLANK];
  const tone = message.kind === 'cue' ? 'now' : message.kind === 'sound' ? 'dim' : 'strong';
  const lines = wrapped(message.sentence, tone, columns, 8);
  const room = Math.max(1, Math.min(4, most));
  if (lines.length <= room) return lines;
  const last = [...(lines[room - 1] ?? BLANK), seg(' …', 'dim')];
  return [...lines.slice(0, room - 1), last];
}

function sideOf({ known, view }: On<'practice'>, canvas: Canvas): Side {
  const { practice } = view.work;
  const history = known.lines[lineName(practice.line)] ?? null;
  return {
    practice,
    history,
    estimate: estimateFor(known, practice),
    today: known.today,
    keyOf: keyOfCanvas(canvas),
  };
}

/** The interval is a bracket once marks of its own, or of its siblings, say something. */
function speedOf({ known }: On<'practice'>, { practice, estimate }: Side): SpeedKnown {
  return {
    wall: wallFor(known, practice)?.bpm ?? null,
    safe: estimate && safeTempo(estimate).known === 'near' ? estimate : null,
  };
}

/** The wider the screen the larger the figures beside the ladder. */
const sideWidth = (columns: number): number =>
  columns >= 170 ? 70 : columns >= 110 ? 46 : Math.min(30, Math.floor(columns / 2));

export const practiceScreen: DrawScreen<'practice'> = (stand, canvas) => {
  const { columns, rows, lettering, foot } = canvas;
  const side = sideOf(stand, canvas);
  const { practice, history, today } = side;
  const { work } = stand.view;
  const run = runViewNow(stand);
  const sitting = run ? [sittingLine(run, columns, side.keyOf), sittingStrip(run, columns)] : [];
  const strip = [...materialLines(practice), ...practiceStrip(practice, columns, rows, lettering)];
  const air = rows >= 30 ? [BLANK] : [];
  const taken = 2 + strip.length + sitting.length + 2 * air.length;
  const said = remark(stand, columns, rows - taken - LEAST_BODY);
  const height = rows - taken - said.length;
  const width = sideWidth(columns);
  const ladder = ladderView(practice, history, today, speedOf(stand, side));
  const body = beside(
    { lines: leftSide(stand, work, ladder, columns - width - 2, height), width: columns - width },
    { lines: sidePanel(side, width, height), width },
  );
  const all = [
    header(practice, (room) => aheadNow(stand, work, room), columns),
    ...air,
    ...body,
    ...air,
    ...strip,
    ...sitting,
    ...said,
    foot,
  ];
  return toHeight(all, rows).map((painted) => fit(painted, columns));
};
