/** The report as lines of plain text that say everything without colour; pure. */
import { withSigns } from '../music/pitch/note-names.ts';
import { bpmText } from '../music/time/tempo-text.ts';
import type { Bpm } from '../common/units.ts';
import type { Cell, Coverage } from './coverage.ts';
import { repetitions } from '../ladder/speed/line-history.ts';
import type { Report } from './weeks-report.ts';
import type { LineWeeks } from './line-weeks.ts';
import type { Week } from './calendar-weeks.ts';

const EIGHTHS = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉'] as const;
const HEIGHTS = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'] as const;

/** A bar of so many cells, drawn to an eighth of a cell: `bar(0.5, 3)` is '█▌ '. */
export function bar(share: number, cells: number): string {
  const eighths = Math.round(Math.min(Math.max(share, 0), 1) * cells * 8);
  return ('█'.repeat(eighths >> 3) + (EIGHTHS[eighths & 7] ?? '')).padEnd(cells);
}

/** One block for each value, as high as it lies between the lowest and the highest; a gap stays blank. */
export function spark(values: readonly (number | null)[]): string {
  const known = values.filter((value) => value !== null);
  const low = Math.min(...known);
  const span = Math.max(...known) - low;
  const height = (value: number): string => HEIGHTS[span === 0 ? 3 : Math.round(((value - low) / span) * 7)] ?? '';
  return values.map((value) => (value === null ? ' ' : height(value))).join('');
}

const percent = (share: number | null): string => (share === null ? '' : `${Math.round(share * 100)} %`);
const WEEK_BAR = 20;

function weekLine({ from, counts, clean, days, bests }: Week): string {
  if (clean === null) return `  ${from}  ·`;
  const numbers = [
    percent(clean).padStart(6),
    String(repetitions(counts)).padStart(6),
    String(days).padStart(5),
    String(bests).padStart(6),
  ];
  return `  ${from}  ${bar(clean, WEEK_BAR)}${numbers.join(' ')}`;
}

const weekLines = (weeks: readonly Week[]): readonly string[] => [
  `  week from   ${'clean'.padEnd(WEEK_BAR)}        marks  days  bests`,
  ...weeks.map(weekLine),
];

const MOST_LINES = 10;

/** 'from 72 to 96', by the first and the last week with a clean repetition. */
function reach(tempos: readonly (Bpm | null)[]): string {
  const known = tempos.filter((tempo) => tempo !== null);
  const [first, last] = [known[0], known.at(-1)];
  if (first === undefined || last === undefined) return 'none clean yet';
  return first === last ? `at ${bpmText(first)}` : `from ${bpmText(first)} to ${bpmText(last)}`;
}

function lineLines(lines: readonly LineWeeks[]): readonly string[] {
  const names = lines.map(({ exercise, articulation, key }) => `${exercise} · ${articulation} · ${withSigns(key)}`);
  const width = Math.min(44, Math.max(0, ...names.slice(0, MOST_LINES).map((name) => name.length)));
  const shown = lines.slice(0, MOST_LINES).map(({ highestClean, clean }, index) => {
    const name = (names[index] ?? '').padEnd(width);
    return `  ${name}  ${spark(highestClean)}  ${reach(highestClean)}, ${percent(clean)} clean`;
  });
  const more = lines.length - shown.length;
  return more > 0 ? [...shown, `  and ${more} more`] : shown;
}

/** Days after which a cell counts as long ago. */
const LONG_AGO = 28;

function cellText({ repetitions: played, best, daysAgo }: Cell): string {
  if (played === 0) return '·';
  return `${best === null ? '–' : bpmText(best)}${(daysAgo ?? 0) > LONG_AGO ? '°' : ''}`;
}

function coverageLines({ title, keys, rows, played }: Coverage, columns: number): readonly string[] {
  const name = Math.max(...rows.map(({ articulation }) => articulation.length), 4);
  const width = Math.max(5, ...keys.map((key) => key.length + 1));
  const perLine = Math.max(1, Math.floor((columns - name - 4) / width));
  const starts = Array.from({ length: Math.ceil(keys.length / perLine) }, (_, index) => index * perLine);
  const cut = (from: number, head: string, cells: readonly string[]): string =>
    `  ${head.padEnd(name)} ${cells
      .slice(from, from + perLine)
      .map((cell) => cell.padStart(width))
      .join('')}`;
  const table = starts.flatMap((from) => [
    cut(
      from,
      '',
      keys.map((key) => withSigns(key)),
    ),
    ...rows.map(({ articulation, cells }) => cut(from, articulation, cells.map(cellText))),
  ]);
  return [`  ${title}: ${percent(played)} of its keys and articulations played`, ...table];
}

const LEGEND = '  number: best in beats per minute · –: none held yet · ·: never played · °: not for four weeks';

/**
 * The whole report.
 * @param columns width of the terminal; tables of keys are broken to fit
 */
export function drawReport({ today, weeks, lines, coverage }: Report, columns: number): readonly string[] {
  if (lines.length === 0 && coverage.length === 0) {
    return ['No line was marked yet. The weeks show here once you mark a repetition clean, tense or missed.'];
  }
  return [
    `${weeks.length} weeks to ${today}`,
    '',
    ...weekLines(weeks),
    ...(lines.length > 0 ? ['', 'Highest clean tempo of each week, most played lines first', ...lineLines(lines)] : []),
    ...(coverage.length > 0
      ? ['', 'Keys and articulations', ...coverage.flatMap((one) => [...coverageLines(one, columns), '']), LEGEND]
      : []),
  ];
}
