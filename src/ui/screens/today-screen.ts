/** The Today screen as a drawing: the day as a row of bars, one for each block, as long as its minutes. */
import { weekdayOf } from '../../common/days.ts';
import { harmless } from '../../common/harmless-text.ts';
import { BY_HAND } from '../../diary/entry.ts';
import { minutesOpen } from '../../plan/today/hand-list.ts';
import { ABOUT_ORDER } from '../../plan/today/blocks-in-turns.ts';
import { wholeMinutes } from '../../common/time-words.ts';
import { blockKey } from '../../plan/today/played-before.ts';
import { hearingLine } from '../../plan/ease/hearing-dose.ts';
import { type WeekLoad, minutesByDay, weekLoad } from '../../plan/today/week-load.ts';
import { type Plan, type PlanItem, isRest, workMinutes } from '../../plan/today/plan-items.ts';
import type { Routine } from '../../plan/routine/routine.ts';
import type { Stand } from '../../practice/stand.ts';
import { leftOpen } from '../../practice/sitting/sitting.ts';
import { knownToday, partWords, routineToday } from '../../practice/screens/today-keys.ts';
import type { DrawScreen } from './screen.ts';
import { BLANK, type PaintedLine, type Tone, fit, line, seg, toHeight, widthOf, wrapped } from '../paint.ts';
import { cell, columnsOf } from '../text-width.ts';

/** 'Wednesday, 2026-11-25' */
export const dayName = (day: string): string => `${weekdayOf(day)}, ${day}`;

const clock = (minutes: number): string => {
  const seconds = Math.round(minutes * 60);
  return `${Math.floor(seconds / 60)}:${`${seconds % 60}`.padStart(2, '0')}`;
};

/** Half a column is half a step of the bar. */
function bar(minutes: number, perColumn: number): string {
  const halves = Math.max(1, Math.round((minutes / perColumn) * 2));
  return '▄'.repeat(Math.floor(halves / 2)) + (halves % 2 === 1 ? '▖' : '');
}

/** What stands between and around title, bar and reason: the sign, the minutes, blanks. */
const AROUND = 10;

interface Frame {
  readonly title: number;
  readonly bar: number;
  readonly perColumn: number;
}

/** Columns that a reason's first part takes. */
const REASON = 22;

/** Titles have the room they need, as long as it leaves a reason its own. */
function frameOf(items: readonly PlanItem[], columns: number): Frame {
  const longest = Math.max(1, ...items.map(({ minutes }) => minutes));
  const bars = columns >= 110 ? 24 : columns >= 80 ? 8 : 4;
  const widest = Math.max(...items.map((item) => columnsOf(item.title) + turnOf(item).length + 2), 20);
  const room = columns - (bars + 1) - AROUND - REASON;
  return { title: Math.min(widest, Math.max(16, room)), bar: bars + 1, perColumn: longest / bars };
}

/** '2/3 ': which of its turns. */
const turnOf = ({ turn }: PlanItem): string => (turn ? `${turn.n}/${turn.of} ` : '');

/** As many of its parts as there is room for: a reason is never broken off; the chosen one is said in full below. */
export function shortReason(reason: string, room: number): string {
  const parts = reason.split(', ');
  const most = parts.findLastIndex((_, k) => columnsOf(parts.slice(0, k + 1).join(', ')) <= room);
  return parts.slice(0, most + 1).join(', ');
}

/** Columns before the reason. */
const beforeReason = ({ title, bar: of }: Frame): number => title + of + AROUND;

function itemLine(stand: Stand, item: PlanItem, index: number, frame: Frame, columns: number): PaintedLine {
  const isHere = index === stand.day.row;
  const tone: Tone = isHere ? 'now' : isRest(item) ? 'dim' : 'plain';
  const turn = turnOf(item);
  return line(
    seg(` ${isHere ? '▶' : ' '} ${cell(item.title, frame.title - turn.length)}${turn}`, tone),
    seg(clock(item.minutes).padStart(5), tone),
    seg(` ${cell(bar(item.minutes, frame.perColumn), frame.bar)}`, isHere ? 'now' : 'dim'),
    seg(` ${shortReason(item.reason, columns - beforeReason(frame))}`, isHere ? 'plain' : 'dim'),
  );
}

/** Blocks of the routine that were already played today. */
function doneLine(stand: Stand, routine: Routine): PaintedLine {
  const { today } = knownToday(stand);
  const done = routine.parts.flatMap((part) =>
    part.blocks.flatMap(({ id, title }) => {
      const was = today.get(blockKey(routine.id, part.id, id));
      return was && was.played > 0 ? [`${title} ${clock(was.played / 60)}`] : [];
    }),
  );
  return done.length === 0 ? BLANK : line(seg(' Played today: ', 'strong'), seg(done.join(', ')));
}

/** Why the chosen block is there, where its line has no room for all of it. */
function whyLines({ day }: Stand, columns: number): readonly PaintedLine[] {
  const item = day.plan?.items[day.row];
  if (!day.plan || !item) return [];
  const isShort = columnsOf(item.reason) > columns - beforeReason(frameOf(day.plan.items, columns));
  return isShort ? wrapped(`Why: ${item.reason}`, 'plain', columns) : [];
}

/** Each part is announced once, before its first block. */
function planLines(stand: Stand, routine: Routine, plan: Plan, columns: number): readonly PaintedLine[] {
  const frame = frameOf(plan.items, columns);
  let part = '';
  return plan.items.flatMap((item, index) => {
    const title = item.part === part ? null : routine.parts.find(({ id }) => id === item.part)?.title;
    part = item.part;
    const row = itemLine(stand, item, index, frame, columns);
    return title ? [line(seg(` ${title}`, 'strong')), row] : [row];
  });
}

/** The chosen one in sight; how many lines are above and below is said on the last of them. */
function around(lines: readonly PaintedLine[], chosen: number, room: number): readonly PaintedLine[] {
  if (lines.length <= room || room < 2) return lines.slice(0, Math.max(0, room));
  const shown = room - 1;
  const from = Math.max(0, Math.min(chosen - Math.floor(shown / 2), lines.length - shown));
  const below = lines.length - from - shown;
  const words = [...(from > 0 ? [`↑ ${from} more`] : []), ...(below > 0 ? [`↓ ${below} more`] : [])];
  return [...lines.slice(from, from + shown), line(seg(`   ${words.join('   ')}`, 'dim'))];
}

/** The line of a block: headings of parts stand between. */
const lineOf = (items: readonly PlanItem[], row: number): number =>
  row + new Set(items.slice(0, row + 1).map(({ part }) => part)).size;

/** What to put on the stand, a line for each thing; where there is no room for all, how many more. */
function toGet(materials: readonly string[], most: number): readonly PaintedLine[] {
  const [first, ...others] = materials;
  if (first === undefined) return [];
  const shown = others.length + 1 <= most ? others : others.slice(0, Math.max(0, most - 2));
  const left = others.length - shown.length;
  return [
    line(seg(' To get: ', 'strong'), seg(first), seg(left > 0 && most < 2 ? ` and ${left} more` : '', 'dim')),
    ...shown.map((thing) => line(seg(`         ${thing}`))),
    ...(left > 0 && most >= 2 ? [line(seg(`         and ${left} more`, 'dim'))] : []),
  ];
}

const loadToday = ({ known, day }: Stand): WeekLoad =>
  weekLoad(known.today, known.records, workMinutes(day.plan?.items ?? []));

const hasTurns = ({ day: { plan } }: Stand): boolean => plan?.items.some(({ turn }) => turn) ?? false;

/** What is known of the order that was asked for, and whether it can be had today. */
function orderLines(stand: Stand, columns: number): readonly PaintedLine[] {
  const { order } = stand.day;
  if (order === null) return [];
  const isInVain = order === 'interleaved' && !hasTurns(stand);
  const said = isInVain ? wrapped('No two of these blocks can take turns.', 'strong', columns) : [];
  return [...said, ...wrapped(ABOUT_ORDER[order], 'dim', columns)];
}

function head(stand: Stand, load: WeekLoad, columns: number): PaintedLine {
  const { minutes, plan } = stand.day;
  const turns = plan?.order === 'interleaved' && hasTurns(stand) ? 'in turns  ' : '';
  const byHand = plan?.routine === BY_HAND ? `${Math.round(minutesOpen(plan.items, knownToday(stand)))} of ` : '';
  const right = `${turns}${byHand}${wholeMinutes(minutes)} `;
  const part = partWords(stand);
  const title = `${routineToday(stand)?.title ?? ''}${part && `: ${part}`}`;
  const short = line(seg(' Today', 'strong'), seg(`  ${dayName(stand.known.today)}  `, 'dim'), seg(title));
  const hasPlayed = load.usual !== null || stand.known.records.some(({ kind }) => kind === 'block');
  const whole = hasPlayed ? [...short, seg(`  ${load.line} `, 'dim')] : short;
  const left = widthOf(whole) + right.length <= columns ? whole : short;
  return [...fit(left, columns - right.length), seg(right, 'now')];
}

/** Minutes at the ear today, what is planned included; empty without a measured level or far from the limit. */
function hearing({ known: { level, records, today }, day }: Stand): readonly string[] {
  if (level === null) return [];
  const minutes = (minutesByDay(records).get(today) ?? 0) + workMinutes(day.plan?.items ?? []);
  const sentence = hearingLine(level, minutes);
  return sentence === null ? [] : [sentence];
}

/** The last note of the last day that was played on before today, by its day. */
function lastNote({ known: { records, today } }: Stand): readonly string[] {
  const day = records.findLast((record) => record.day < today)?.day;
  const note = records.findLast((record) => record.kind === 'note' && record.day === day);
  return note?.kind === 'note' ? [`Your note of ${dayName(note.day)}: ${harmless(note.text, 200)}`] : [];
}

/** Lines of remarks at most; the list of blocks needs the rest. */
const MOST_REMARKS = 6;

/** What to say when there is something to say: trouble found on opening first, then why a block is not there. */
function remarks(stand: Stand, { warning }: WeekLoad, columns: number): readonly PaintedLine[] {
  const { notices, output, day } = stand;
  const left = leftOpen(stand);
  const silence = output?.state === 'silent' ? [output.sentence] : [];
  const goOn = left ? [`${left.remark} Press g.`] : [];
  const others = (day.plan?.leftOut.length ?? 0) - 1;
  const [first] = day.plan?.leftOut ?? [];
  const out = first ? [`Not today: ${first.title} (${first.reason})${others > 0 ? ` and ${others} more` : ''}.`] : [];
  const quiet = [...notices, ...silence, ...out].flatMap((sentence) => wrapped(sentence, 'dim', columns));
  const cautions = [...(warning ? [warning] : []), ...hearing(stand)].flatMap((sentence) =>
    wrapped(sentence, 'strong', columns),
  );
  const note = lastNote(stand).flatMap((sentence) => wrapped(sentence, 'plain', columns, 2));
  const waits = stand.draft ? ['An exercise that you were writing waits: n goes on with it.'] : [];
  const told = [...(stand.answer ? [stand.answer.sentence] : []), ...waits, ...goOn];
  const loud = [
    ...told.flatMap((sentence) => wrapped(sentence, 'now', columns)),
    ...note,
    ...cautions,
    ...orderLines(stand, columns),
  ];
  return [...loud, ...quiet].slice(0, Math.max(2, Math.min(loud.length, MOST_REMARKS)));
}

export const todayScreen: DrawScreen<'today'> = (stand, { columns, rows, foot }) => {
  const routine = routineToday(stand);
  const { plan, row } = stand.day;
  const load = loadToday(stand);
  const remarked = remarks(stand, load, columns);
  const said = toHeight(remarked, Math.max(2, remarked.length));
  const lines =
    routine && plan
      ? planLines(stand, routine, plan, columns)
      : [line(seg(' No routine could be read: e shows the exercises.'))];
  const done = routine ? doneLine(stand, routine) : BLANK;
  const spare = rows - 5 - said.length - lines.length;
  const why = whyLines(stand, columns);
  const things = [...why, ...toGet(plan?.materials ?? [], Math.max(1, spare - why.length))];
  const room = rows - 5 - said.length - things.length;
  return toHeight(
    [
      head(stand, load, columns),
      BLANK,
      ...toHeight(around(lines, lineOf(plan?.items ?? [], row), room), room),
      ...things,
      done,
      ...said,
      BLANK,
      foot,
    ],
    rows,
  ).map((painted) => fit(painted, columns));
};
