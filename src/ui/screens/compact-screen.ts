/** Where a screen as a drawing has no room: tempo, beat, rung and state in a few short lines, the most needed first. */
import { runViewNow } from '../../practice/sitting/run-now.ts';
import { withSigns } from '../../music/pitch/note-names.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { percent } from '../../ladder/settling/settling-text.ts';
import { climbNow, ruleOf, tempoNow } from '../../practice/line/line-state.ts';
import type { Practice } from '../../practice/line/line-on-stand.ts';
import { messageNow } from '../../practice/messages.ts';
import type { KnownSoFar, Screen, Stand } from '../../practice/stand.ts';
import { type FirstView, instrumentNow } from '../../practice/screens/first-start-keys.ts';
import { noteNow } from '../../practice/screens/note-typing.ts';
import { digits, digitsWidth } from '../components/tall-figures.ts';
import { type PaintedLine, fit, line, seg, toHeight } from '../paint.ts';
import { type KeyOf, stateLine } from '../practice/practice-state.ts';
import { wordsToRead } from '../practice/large-words.ts';
import { nextLines } from '../practice/practice-words.ts';
import { isTimeUp, timeIsUp } from './sitting-lines.ts';
import { type Canvas, type On, keyOfCanvas } from './screen.ts';

/** Below this a screen has no room for its drawing. */
export const SMALLEST = { columns: 60, rows: 18 } as const;

/** Tall figures and what stands under them. */
const ROOM_FOR_FIGURES = 9;

/** '▂█▂▂': the beat that is heard. */
function beatSigns({ heard, exercise }: Practice): string {
  const beats = heard?.beatsInBar ?? exercise.meter.count;
  return Array.from({ length: beats }, (_, beat) => (beat === heard?.beat ? '█' : '▂')).join('');
}

/** 'rung 2 of 3': how far the rung is held. */
function rungWords(practice: Practice): string {
  const { bpm, cleanRun, missedRun } = climbNow(practice);
  const { cleanUp, missedDown, aim } = ruleOf(practice);
  if (aim !== null) return `rung ${bpmText(bpm)}: clean ${cleanRun} of ${cleanUp}, aim ${percent(aim)}`;
  const missed = missedRun > 0 ? `, missed ${missedRun} of ${missedDown}` : '';
  return `rung ${bpmText(bpm)}: clean ${cleanRun} of ${cleanUp}${missed}`;
}

function ofLine(
  known: KnownSoFar,
  practice: Practice,
  { columns, rows }: Canvas,
  keyOf: KeyOf,
): readonly PaintedLine[] {
  const words = wordsToRead(known, practice).join(' · ');
  const tempo = bpmText(tempoNow(practice));
  const isTall = rows >= ROOM_FOR_FIGURES && digitsWidth(tempo, 1) <= columns;
  const [up, down] = nextLines(practice, columns);
  return [
    line(seg(stateLine(practice, keyOf), 'strong')),
    ...(words ? [line(seg(` ${words} `, 'now'))] : []),
    ...(isTall ? digits(tempo, 1, 'large') : []),
    line(seg(`${isTall ? '' : `${tempo}  `}`, 'large'), seg(beatSigns(practice))),
    line(seg(up)),
    line(seg(rungWords(practice))),
    line(seg(down, 'dim')),
    line(seg(practice.exercise.title), seg(`  ${withSigns(practice.key)} ${practice.line.articulation}`)),
  ];
}

const NAMES: Readonly<Record<Screen, string>> = {
  form: '',
  list: '',
  first: 'Three questions',
  today: 'Today',
  exercises: 'Exercises',
  practice: '',
  grid: 'The grid',
  block: '',
  end: 'The sitting is over',
  ways: 'Ways round',
  weeks: 'Weeks',
  settings: 'Settings',
};

/** What is under the finger of the first start. */
function firstNow(view: FirstView): string {
  if (view.asks === 'minutes') return `${view.minutes} minutes`;
  return view.asks === 'routine' ? `begin with number ${view.routine + 1}` : (instrumentNow(view)?.name ?? view.typed);
}

/** What is under the finger, so that it can be begun even here. */
function chosen(stand: Stand): string {
  const { view, day, known, choice } = stand;
  if (view.screen === 'today') return day.plan?.items[day.row]?.title ?? '';
  if (view.screen === 'exercises') return known.exercises[choice.row]?.title ?? '';
  if (view.screen === 'first') return firstNow(view);
  return view.screen === 'ways' ? (view.ways.offers[view.ways.row]?.title ?? '') : '';
}

function sittingLines(stand: Stand, columns: number, keyOf: KeyOf): readonly PaintedLine[] {
  const view = runViewNow(stand);
  if (!view) return [];
  if (isTimeUp(view)) return [timeIsUp(view, columns, keyOf)];
  return [
    line(seg(` ${view.left}`, 'now'), seg(` left  ${view.title}`), seg(view.next ? `  ${view.next}` : '', 'dim')),
  ];
}

function otherLines(stand: Stand): readonly PaintedLine[] {
  const name = NAMES[stand.view.screen];
  const row = chosen(stand);
  return [
    ...(name ? [line(seg(` ${name}`, 'strong'))] : []),
    ...(row ? [line(seg(` ▶ ${row}`, 'now'))] : []),
    line(seg(` A window of ${SMALLEST.columns} by ${SMALLEST.rows} shows more.`, 'dim')),
  ];
}

/** Exactly `rows` lines of at most `columns`. A question or an answer stays in sight, on the last line. */
export function compactScreen(stand: Stand, canvas: Canvas): readonly PaintedLine[] {
  const { columns, rows, foot } = canvas;
  const keyOf = keyOfCanvas(canvas);
  const { view } = stand;
  const note = noteNow(stand);
  const work =
    view.screen === 'practice'
      ? ofLine(stand.known, (view as On<'practice'>['view']).work.practice, canvas, keyOf)
      : [];
  const sitting = sittingLines(stand, columns, keyOf);
  const message = note === null ? (messageNow(stand)?.sentence ?? '') : `Note: ${note}█`;
  const body = [...(work.length > 0 ? [] : otherLines(stand))];
  const all = work.length > 0 ? [...work.slice(0, 1), ...sitting, ...work.slice(1)] : [...sitting, ...body];
  const end = [...(message && rows > 4 ? [line(seg(` ${message}`))] : []), ...(rows > 3 ? [foot] : [])];
  return toHeight([...toHeight(all, Math.max(0, rows - end.length)), ...end], rows).map((painted) =>
    fit(painted, columns),
  );
}
