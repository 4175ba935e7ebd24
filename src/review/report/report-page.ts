/** The report as one page that needs nothing else: no script, no network, no font. It is XML too. Pure. */
import { dateOf, mondayOf } from '../../common/days.ts';
import { repetitions } from '../../ladder/speed/line-history.ts';
import { withSigns } from '../../music/pitch/note-names.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { CAUTION } from '../../plan/ease/caution.ts';
import { barChart, tempoChart, trackChart } from './charts.ts';
import { table, words } from './markup.ts';
import { PAGE_STYLE } from './page-style.ts';
import type { LineOfReport, PracticeReport } from './practice-report.ts';
import type { Point } from './routine-answered.ts';
import { type StudentSummary, summaryOf } from './student-summary.ts';

const bpm = (tempo: number | null): string => (tempo === null ? '–' : bpmText(tempo));
const percent = (share: number | null): string => (share === null ? '–' : `${Math.round(share * 100)} %`);
const rounded = (value: number): string => String(Math.round(value));

/** Nothing may be fetched, sent or run from the page, whatever stands in it. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/** Under this name a page carries its numbers for `standside students`. */
export const SUMMARY_NAME = 'standside-summary';

/** A whole page around what it holds. */
export const page = (title: string, body: string, summary: StudentSummary | null = null): string =>
  `<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"/><meta name="viewport" content="width=device-width"/>` +
  `<meta http-equiv="Content-Security-Policy" content="${POLICY}"/><title>${words(title)}</title>` +
  (summary ? `<meta name="${SUMMARY_NAME}" content="${words(JSON.stringify(summary), 200_000)}"/>` : '') +
  `<style>${PAGE_STYLE}</style></head><body><main>${body}</main></body></html>\n`;

interface Week {
  readonly from: string;
  readonly minutes: number;
  readonly marks: number;
  readonly clean: number | null;
}

function weeksOf({ asked, days }: PracticeReport): readonly Week[] {
  const weeks: Week[] = [];
  for (let monday = mondayOf(asked.from); monday <= mondayOf(asked.to); monday += 7) {
    const of = days.filter(({ day }) => mondayOf(day) === monday);
    const marks = of.reduce((sum, { counts }) => sum + repetitions(counts), 0);
    const clean = of.reduce((sum, { counts }) => sum + counts.clean, 0);
    const minutes = of.reduce((sum, one) => sum + one.minutes, 0);
    weeks.push({ from: dateOf(monday), minutes, marks, clean: marks === 0 ? null : clean / marks });
  }
  return weeks;
}

function weeksSection(report: PracticeReport): string {
  const weeks = weeksOf(report);
  const total = weeks.reduce((sum, { minutes }) => sum + minutes, 0);
  const over = weeks.length === 1 ? '1 week' : `${weeks.length} weeks`;
  const said = `${rounded(total)} minutes in ${over}, ${rounded(total / weeks.length)} a week on average.`;
  const bars = weeks.map(({ from, minutes }) => ({ label: from.slice(5), value: Math.round(minutes) }));
  const rows = weeks.map(({ from, minutes, marks, clean }) => [from, rounded(minutes), `${marks}`, percent(clean)]);
  const kinds = report.minutesByKind.map(([kind, minutes]) => [words(kind), rounded(minutes)]);
  return (
    `<section><h2>Weeks</h2><figure>${barChart('w', 'Minutes in each week', said, bars)}` +
    `<figcaption>Minutes played in each week, by the Monday it begins on. ${said}</figcaption></figure>` +
    table('The weeks in numbers', ['Week from', 'Minutes', 'Marks', 'Clean'], rows) +
    (kinds.length > 0 ? table('Minutes by kind of work', ['Kind', 'Minutes'], kinds) : '') +
    `</section>`
  );
}

const nameOf = ({ title, articulation, key }: LineOfReport): string =>
  words(`${title}, ${articulation}, ${withSigns(key)}`, 120);

function nowText({ now }: LineOfReport): string {
  if (now === null) return 'still finding out';
  const { low, high } = now;
  const interval = low === null || high === null ? '' : ` (${rounded(low)} to ${rounded(high)})`;
  return `${rounded(now.bpm)}${interval}`;
}

const trackOf = ({ start, target, now, best }: LineOfReport): string =>
  start === null || target === null
    ? ''
    : trackChart(start, target, now?.bpm ?? best, now?.low ?? null, now?.high ?? null);

const lineRow = (line: LineOfReport): readonly string[] => [
  nameOf(line),
  trackOf(line),
  nowText(line),
  line.best === null ? '–' : `${bpm(line.best)} on ${line.bestDay}`,
  line.bestNotes === null ? '–' : line.bestNotes.toFixed(1),
  bpm(line.target),
  `${repetitions(line.counts)}`,
  percent(line.clean),
  line.lastDay,
];

const LINE_HEADS = [
  'Line',
  'Start to target',
  'Clean 9 in 10 at',
  'Best held',
  'Notes a second',
  'Target',
  'Marks',
  'Clean',
  'Last',
] as const;

/** So many lines are drawn over time; all of them stand in the table. */
const MOST_DRAWN = 12;
const MOST_ROWS = 250;

function lineFigure(line: LineOfReport, index: number, { from, to }: PracticeReport['asked']): string {
  const known = line.days.flatMap(({ bpm: tempo }) => tempo ?? []);
  const [first, last] = [known[0] ?? null, known.at(-1) ?? null];
  const said =
    first === null
      ? 'Nothing was clean in these days.'
      : `Clean at ${bpm(first)} on the first day, at ${bpm(last)} on the last; target ${bpm(line.target)}.`;
  const title = `${line.title}, ${line.articulation}, ${line.key}`;
  return (
    `<figure><h3>${nameOf(line)}</h3>${tempoChart(`l${index}`, { title, said, from, to }, line.days, line.target)}` +
    `<figcaption>${said}</figcaption></figure>`
  );
}

function linesSection({ lines, asked }: PracticeReport): string {
  if (lines.length === 0) return '<section><h2>Lines</h2><p>No repetition was marked in these days.</p></section>';
  const drawn = lines.slice(0, MOST_DRAWN).map((line, index) => lineFigure(line, index, asked));
  const more =
    lines.length > MOST_ROWS ? `<p class="soft">${lines.length - MOST_ROWS} more lines are left out.</p>` : '';
  return (
    `<section><h2>Lines</h2><p class="soft">A line is one exercise in one articulation and key. Tempos are beats per ` +
    `minute. The one furthest from its target comes first.</p>` +
    table('Where each line stands', LINE_HEADS, lines.slice(0, MOST_ROWS).map(lineRow)) +
    more +
    `<h2>Over time</h2><p class="soft">The highest tempo of each day that was clean at least once; the broken ` +
    `line is the target. A week without playing is a gap.</p>${drawn.join('')}</section>`
  );
}

const pointsSection = (title: string, points: readonly Point[]): string =>
  `<section><h2>${words(title)}</h2>` +
  table(
    'The routine, point by point',
    ['Exercise', 'Target', 'Answer'],
    points.map((point) => [words(point.title), bpm(point.target), words(point.said, 200)]),
  ) +
  `</section>`;

const LEVELS = ['not at all', 'a little', 'somewhat', 'quite', 'very'] as const;

function tensionSection(tension: NonNullable<PracticeReport['tension']>): string {
  const rows = tension.map(({ day, level, title }) => [day, `${level} (${LEVELS[level]})`, words(title) || '–']);
  const body =
    rows.length === 0
      ? '<p>None was entered in these days.</p>'
      : table('Tension after blocks, as the player felt it', ['Day', 'How tense', 'After'], rows);
  return `<section><h2>Tension</h2>${body}<p class="soft">${CAUTION}</p></section>`;
}

const notesSection = (notes: NonNullable<PracticeReport['notes']>): string =>
  `<section><h2>Notes</h2>${
    notes.length === 0
      ? '<p>None was written in these days.</p>'
      : notes.map(({ day, text }) => `<h3>${day}</h3><blockquote>${words(text, 1000)}</blockquote>`).join('')
  }</section>`;

/** A teacher's routine with its answers. */
export interface Answered {
  readonly title: string;
  readonly points: readonly Point[];
}

/** The whole page. @param answered first on the page, where a routine was to be answered */
export function reportPage(report: PracticeReport, answered: Answered | null = null): string {
  const { asked, days, tension, notes } = report;
  const summary = summaryOf(report);
  const title = `Practice from ${asked.from} to ${asked.to}`;
  const first =
    `<h1>${title}</h1><p>${days.length} day${days.length === 1 ? '' : 's'} played, ${summary.minutes} minutes in ` +
    `routines, ${summary.marks} repetition${summary.marks === 1 ? '' : 's'} marked by the player.</p>`;
  const sections = [
    ...(answered ? [pointsSection(answered.title, answered.points)] : []),
    weeksSection(report),
    linesSection(report),
    ...(tension ? [tensionSection(tension)] : []),
    ...(notes ? [notesSection(notes)] : []),
  ];
  return page(title, first + sections.join(''), summary);
}
