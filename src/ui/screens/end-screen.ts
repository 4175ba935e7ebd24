/** The end of a sitting: what was done, what was reached, what held back, where to start tomorrow. */
import { bpmText } from '../../music/time/tempo-text.ts';
import { type Summary, summaryOf } from '../../plan/run/sitting-summary.ts';
import type { Stand } from '../../practice/stand.ts';
import { routineToday, seedOf } from '../../practice/screens/today-keys.ts';
import { BLANK, type PaintedLine, fit, line, seg, toHeight } from '../paint.ts';
import { sittingStrip, viewOf } from './sitting-lines.ts';

function summaryNow(stand: Stand): Summary | null {
  const { run, today, records, lines } = stand;
  const routine = routineToday(stand);
  return run && routine ? summaryOf(routine, run, today, records, Object.values(lines), seedOf(today)) : null;
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
function lastLine({ note, records, today }: Stand, question: string): PaintedLine {
  if (note !== null) return line(seg(' Note: ', 'strong'), seg(note), seg('█', 'now'));
  if (question) return line(seg(` ${question}`, 'strong'));
  const kept = records.findLast((record) => record.kind === 'note' && record.day === today);
  return kept?.kind === 'note' ? line(seg(` Note kept: ${kept.text}`, 'dim')) : BLANK;
}

export function endScreen(stand: Stand, foot: PaintedLine, columns: number, rows: number): readonly PaintedLine[] {
  const view = viewOf(stand);
  const summary = summaryNow(stand);
  if (!view || !summary) return toHeight([foot], rows);
  const head = line(seg(' The sitting is over', 'strong'), seg(`  ${view.played} played of ${view.total}`, 'dim'));
  const body = toHeight([head, BLANK, ...summaryLines(summary)], rows - 4);
  return toHeight([...body, BLANK, lastLine(stand, view.question), sittingStrip(view, columns), foot], rows).map(
    (painted) => fit(painted, columns),
  );
}
