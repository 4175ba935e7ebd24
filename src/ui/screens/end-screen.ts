/** The end of a sitting: what was done, what was reached, what held back, where to start tomorrow. */
import { runViewNow } from '../../practice/sitting/run-now.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { type Summary, summaryOf } from '../../plan/run/sitting-summary.ts';
import type { Stand } from '../../practice/stand.ts';
import { messageNow } from '../../practice/messages.ts';
import { seedOf } from '../../common/chance.ts';
import { routineNow } from '../../practice/sitting/sitting.ts';
import { BLANK, type PaintedLine, fit, line, seg, toHeight } from '../paint.ts';
import type { DrawScreen, On } from './screen.ts';
import { sittingStrip } from './sitting-lines.ts';

/** Of the routine that was played, whichever the Today screen shows. */
function summaryNow(stand: Stand): Summary | null {
  const { today, records, lines } = stand.known;
  const routine = routineNow(stand);
  if (!stand.sitting || !routine) return null;
  return summaryOf(routine, stand.sitting.run, today, records, Object.values(lines), seedOf(today));
}

/** A heading and its lines; nothing when there is nothing to say. */
const section = (title: string, lines: readonly PaintedLine[]): readonly PaintedLine[] =>
  lines.length === 0 ? [] : [BLANK, line(seg(` ${title}`, 'strong')), ...lines];

const SIGNS = { done: '●', open: '◐', skipped: '○' } as const;

function summaryLines(summary: Summary): readonly PaintedLine[] {
  const done = summary.done.map(({ title, played, of, state }) =>
    line(seg(`   ${SIGNS[state]} ${title}  `), seg(`${played} of ${of}`, 'dim')),
  );
  const bests = summary.bests.map((best) => line(seg(`   ${best.line}: `), seg(bpmText(best.bpm), 'now')));
  return [
    ...done,
    ...section('New bests', bests),
    ...section(
      'What held back',
      summary.heldBack.map((sentence) => line(seg(`   ${sentence}`))),
    ),
    ...section(
      'Tomorrow, after the warm-up',
      summary.tomorrow.map(({ title, reason }) => line(seg(`   ${title}  `), seg(reason, 'dim'))),
    ),
  ];
}

/** What is being asked or written; the last note of the day otherwise. */
function lastLine(stand: On<'end'>): PaintedLine {
  const { note } = stand.view;
  if (note !== null) return line(seg(' Note: ', 'strong'), seg(note), seg('█', 'now'));
  const message = messageNow(stand);
  if (message?.kind === 'answer' || message?.kind === 'question') return line(seg(` ${message.sentence}`, 'strong'));
  const { records, today } = stand.known;
  const kept = records.findLast((record) => record.kind === 'note' && record.day === today);
  return kept?.kind === 'note' ? line(seg(` Note kept: ${kept.text}`, 'dim')) : BLANK;
}

/** A note that could not be kept stays, and this is why. */
function whyStillWritten(stand: On<'end'>): PaintedLine {
  const { view, answer } = stand;
  return view.note !== null && answer ? line(seg(` ${answer.sentence}`, 'strong')) : BLANK;
}

/** What there is no room for is counted on the last line. */
function cutSaid(lines: readonly PaintedLine[], room: number): readonly PaintedLine[] {
  if (lines.length <= room) return toHeight(lines, room);
  const left = lines.length - room + 1;
  return [...lines.slice(0, Math.max(0, room - 1)), line(seg(`   ${left} lines more in a taller window`, 'dim'))];
}

export const endScreen: DrawScreen<'end'> = (stand, { columns, rows, foot }) => {
  const view = runViewNow(stand);
  const summary = summaryNow(stand);
  if (!view || !summary) return toHeight([foot], rows);
  const head = line(seg(' The sitting is over', 'strong'), seg(`  ${view.played} played of ${view.total}`, 'dim'));
  const body = cutSaid([head, BLANK, ...summaryLines(summary)], rows - 4);
  return toHeight([...body, whyStillWritten(stand), lastLine(stand), sittingStrip(view, columns), foot], rows).map(
    (painted) => fit(painted, columns),
  );
};
