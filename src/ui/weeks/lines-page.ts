/** The first page of the weeks: every line from its start to its target, the neediest first, and what to work on. */
import { withSigns } from '../../music/pitch/note-names.ts';
import type { Action, Stand } from '../../practice/stand.ts';
import { sentencesNow, standingsNow, standingsShown } from '../../practice/weeks/weeks-lines.ts';
import type { WeeksPlace } from '../../practice/weeks/weeks-place.ts';
import { type Standing, isWaiting } from '../../review/standing.ts';
import type { Matter } from '../../review/weeks-sentences.ts';
import { BLANK, type PaintedLine, type Tone, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import { cell } from '../text-width.ts';
import type { Canvas, DrawScreen } from '../screens/screen.ts';
import { keyOn } from '../screens/screen.ts';
import { weeksHead } from './weeks-head.ts';
import { tempoBand } from './tempo-band.ts';

interface Widths {
  readonly title: number;
  readonly way: number;
  readonly band: number;
  /** Clean share and day of the last time. */
  readonly more: boolean;
}

const WIDE_FROM = 110;
/** Cursor, the two tempos of the band, now, what came of it, and the blanks between them. */
const FIXED = 28;
const MORE = 13;

function widthsFor(columns: number): Widths {
  const more = columns >= WIDE_FROM;
  const title = columns < 76 ? 14 : Math.min(30, 18 + Math.floor((columns - 80) / 8));
  const way = columns < 76 ? 10 : more ? 20 : 13;
  return { title, way, more, band: Math.max(6, columns - title - way - FIXED - (more ? MORE : 0)) };
}

const whole = (bpm: number): string => `${Math.round(bpm)}`;

/** '81', '>92' where it lies above all that was played; nothing before it is known. */
export function nowText({ now: { said } }: Pick<Standing, 'now'>): string {
  if (said.known === 'too little') return '?';
  if (said.known === 'near') return whole(said.bpm);
  return `${said.known === 'above' ? '>' : '<'}${whole(said.bpm)}`;
}

const weeksAgo = (days: number): string => `${Math.floor(days / 7)} wk`;

/** What came of eight weeks, a sign and a word. */
export function trendOf(standing: Standing): { readonly text: string; readonly tone: Tone } {
  const { gain, wall, now, marks, daysAgo } = standing;
  if (wall) return { text: `▌ stuck`, tone: 'missed' };
  if (isWaiting(standing)) return { text: `° ${weeksAgo(daysAgo)}`, tone: 'tense' };
  if (now.said.known === 'too little') return { text: `? ${marks} mk`, tone: 'dim' };
  if (gain === null) return { text: 'new', tone: 'dim' };
  if (Math.round(gain) === 0) return { text: '= 0', tone: 'plain' };
  return gain > 0 ? { text: `↑ ${whole(gain)}`, tone: 'clean' } : { text: `↓ ${whole(-gain)}`, tone: 'missed' };
}

const percent = (share: number | null): string => (share === null ? '–' : `${Math.round(share * 100)} %`);

const ago = (days: number): string => (days === 0 ? 'today' : days < 14 ? `${days} d` : weeksAgo(days));

function row(standing: Standing, widths: Widths, isHere: boolean): PaintedLine {
  const { title, line: of, start, target, clean, daysAgo } = standing;
  const trend = trendOf(standing);
  const name: Tone = isHere ? 'now' : 'plain';
  return line(
    seg(`${isHere ? '▶' : ' '}${cell(title, widths.title)}`, name),
    seg(cell(`${withSigns(of.key)} ${of.articulation}`, widths.way), name),
    seg(`${whole(start).padStart(4)} `, 'dim'),
    ...tempoBand(standing, widths.band),
    seg(` ${whole(target).padEnd(4)}`, 'dim'),
    seg(nowText(standing).padStart(5), 'strong'),
    seg(`  ${trend.text.padEnd(8)}`, trend.tone),
    ...(widths.more ? [seg(percent(clean).padStart(6), 'plain'), seg(ago(daysAgo).padStart(7), 'dim')] : []),
  );
}

function columnHeads(widths: Widths): PaintedLine {
  const names = ' '.repeat(1 + widths.title + widths.way);
  const band = `start${' '.repeat(Math.max(1, widths.band - 2))}target`;
  const more = widths.more ? ' clean   last' : '';
  return line(seg(`${names}${band.padEnd(widths.band + 10)}  now  8 weeks ${more}`, 'dim'));
}

const LEGEND = '◇ eight weeks ago  ● now  ═ how sure  ▌ wall  · still to go';

function legend(from: number, shown: number, all: number): PaintedLine {
  const hidden = all - shown;
  const more = hidden > 0 ? `   ${from + 1} to ${from + shown} of ${all}` : '';
  return line(seg(` ${LEGEND}${more}`, 'dim'));
}

/** The key that acts on what a sentence says. */
function keysOf(matter: Matter, canvas: Canvas): string {
  const key = (action: Action): string => keyOn(canvas, 'weeks', action);
  if (matter === 'Stuck') return `${key('way')}: ways`;
  if (matter === 'Waits') return `${key('waits')}: play it, ${key('coverage')}: which`;
  return `${key('grows')}: see it`;
}

const TONES: Readonly<Record<Matter, Tone>> = { Stuck: 'missed', Waits: 'tense', Grows: 'clean' };

/** Each sentence over as many lines as it needs, its key at its end. */
export function sentenceLines(stand: Stand, canvas: Canvas): readonly PaintedLine[] {
  return sentencesNow(stand.known).flatMap(({ matter, sentence, standing }) => {
    const text = standing ? `${sentence} ${keysOf(matter, canvas)}` : sentence;
    return wrapped(text, 'plain', canvas.columns - 8, 2).map((part, index) =>
      line(seg(index === 0 ? ` ${matter} ` : '       ', TONES[matter]), seg(' '), ...part),
    );
  });
}

/** What is looked for, and what alone is shown. */
function narrowedBy({ typed, isTyping, only }: WeeksPlace, stand: Stand): string {
  const title = stand.known.exercises.find(({ id }) => id === only.exercise)?.title ?? only.exercise;
  const kept = [title, only.articulation, only.kind].filter((one) => one !== null);
  const looked = isTyping ? `Find: ${typed}_` : typed === '' ? '' : `Found by ${typed}`;
  return [looked, kept.length === 0 ? '' : `Only ${kept.join(', ')}`].filter(Boolean).join('. ');
}

const scrollTo = (chosen: number, total: number, room: number): number =>
  Math.max(0, Math.min(chosen - Math.floor(room / 2), total - room));

const NOTHING = 'No line was marked yet. The weeks show here once you mark a repetition clean, tense or missed.';

export const linesPage: DrawScreen<'weeks'> = (stand, canvas) => {
  const { columns, rows, foot } = canvas;
  const { view, known } = stand;
  const head = weeksHead('lines', canvas);
  const all = standingsShown(known, view);
  if (standingsNow(known).length === 0)
    return toHeight([...toHeight([head, BLANK, ...wrapped(NOTHING, 'plain', columns)], rows - 1), foot], rows);
  const said = [
    ...(stand.answer ? wrapped(stand.answer.sentence, 'strong', columns, 2) : []),
    ...sentenceLines(stand, canvas),
  ];
  const narrowed = narrowedBy(view, stand);
  const top = [head, narrowed ? line(seg(` ${narrowed}`, 'strong')) : BLANK];
  const room = Math.max(1, rows - top.length - said.length - 3);
  const from = scrollTo(view.row, all.length, room);
  const widths = widthsFor(columns);
  const shown = all.slice(from, from + room).map((one, k) => row(one, widths, from + k === view.row));
  const none = all.length === 0 ? [line(seg(' No line is called like that.', 'dim'))] : [];
  const body = toHeight([columnHeads(widths), ...shown, ...none], room + 1);
  return toHeight([...top, ...body, legend(from, shown.length, all.length), ...said, foot], rows).map((one) =>
    fit(one, columns),
  );
};
