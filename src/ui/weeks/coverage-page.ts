/** All exercises on one page: how much of the target each key has reached, and how long ago it was played. */
import { withSigns } from '../../music/pitch/note-names.ts';
import { cellHere, coverageKeys, coverageRows, type CoverageRow } from '../../practice/weeks/weeks-lines.ts';
import type { Stand } from '../../practice/stand.ts';
import { type Cell, type Coverage, coverageOf } from '../../review/coverage.ts';
import { WAITS_AFTER } from '../../review/standing.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import { type PaintedLine, type Tone, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import { cell } from '../text-width.ts';
import { type Canvas, type DrawScreen, keyOn } from '../screens/screen.ts';
import { weeksHead } from './weeks-head.ts';

/** Shade by the share of the target reached. */
const SHADES: readonly (readonly [from: number, sign: string])[] = [
  [1, '█'],
  [0.75, '▓'],
  [0.5, '▒'],
  [0, '░'],
];

const CELL = 5;

/** '▒74°'; a dot where it was never played, nothing where the exercise has no such key. */
export function cellText({ best, repetitions, daysAgo }: Cell, target: number): string {
  if (repetitions === 0) return '·';
  const shade = best === null ? '–' : (SHADES.find(([from]) => best / target >= from)?.[1] ?? '');
  return `${shade}${best === null ? '' : Math.round(best)}${(daysAgo ?? 0) > WAITS_AFTER ? '°' : ''}`;
}

const isOld = ({ daysAgo }: Cell): boolean => (daysAgo ?? 0) > WAITS_AFTER;

const toneOf = (one: Cell): Tone => (one.repetitions === 0 ? 'dim' : isOld(one) ? 'tense' : 'plain');

interface Page {
  readonly stand: Stand;
  readonly coverage: ReadonlyMap<string, Coverage>;
  readonly keys: readonly string[];
  readonly names: { readonly title: number; readonly way: number };
}

function cellOf({ coverage }: Page, { exercise, articulation }: CoverageRow, key: string): Cell | null {
  const row = coverage.get(exercise.id)?.rows.find((one) => one.articulation === articulation);
  return row?.cells.find((one) => one.key === key) ?? null;
}

function rowLine(page: Page, row: CoverageRow, isFirst: boolean, at: number | null): PaintedLine {
  const { names, keys } = page;
  const { target } = lineRule(row.exercise, row.articulation);
  const cells = keys.map((key, index) => {
    const one = cellOf(page, row, key);
    const text = one ? cellText(one, target) : '';
    const isHere = index === at;
    // The sign of the finger takes the shade's place: with both the widest cells would run together.
    const shown = isHere ? `▶${text.replace(/^[^\d°]/, '')}` : text;
    return seg(shown.padStart(CELL), isHere ? 'now' : one ? toneOf(one) : 'dim');
  });
  const title = isFirst ? row.exercise.title : '';
  return line(seg(` ${cell(title, names.title)}`, 'strong'), seg(cell(row.articulation, names.way), 'plain'), ...cells);
}

/** How many cells there are and were played, and what the finger is on. */
function aboutCells(page: Page, canvas: Canvas): string {
  const all = [...page.coverage.values()].flatMap(({ rows }) => rows.flatMap(({ cells }) => cells));
  const played = all.filter(({ repetitions }) => repetitions > 0);
  const old = played.filter(isOld).length;
  const here = page.stand.view.screen === 'weeks' ? cellHere(page.stand.known, page.stand.view) : null;
  const key = (action: 'open' | 'list'): string => keyOn(canvas, 'weeks', action);
  const put = `${key('open')}: on the stand, ${key('list')}: into today's list.`;
  const named = here
    ? `${here.exercise.title}, ${withSigns(here.line.key)} ${here.line.articulation}. ${put}`
    : 'This exercise is not in that key.';
  return `${played.length} of ${all.length} ever played, ${old} of them not for four weeks. ${named}`;
}

const LEGEND = 'number: best  █ target  ▓ 3/4  ▒ 1/2  ░ less  · never  ° not for four weeks';

function pageOf(stand: Stand, columns: number): Page {
  const rows = coverageRows(stand.known);
  const marked = { lines: new Map(Object.entries(stand.known.lines)) };
  const exercises = [...new Set(rows.map(({ exercise }) => exercise))];
  const coverage = new Map(exercises.map((one) => [one.id, coverageOf(marked, one, stand.known.today)]));
  const names = columns < 84 ? { title: 10, way: 9 } : { title: Math.min(34, columns - 70), way: 18 };
  return { stand, coverage, keys: coverageKeys(stand.known), names };
}

/** Where not all keys fit, those around the finger. */
function keysShown({ keys, names }: Page, at: number, columns: number): { from: number; keys: readonly string[] } {
  const many = Math.max(1, Math.floor((columns - names.title - names.way - 1) / CELL));
  const from = Math.max(0, Math.min(at - Math.floor(many / 2), keys.length - many));
  return { from, keys: keys.slice(from, from + many) };
}

export const coveragePage: DrawScreen<'weeks'> = (stand, canvas) => {
  const { columns, rows, foot } = canvas;
  const { cell: at } = stand.view;
  const all = coverageRows(stand.known);
  const whole = pageOf(stand, columns);
  const { from: firstKey, keys } = keysShown(whole, at.key, columns);
  const page: Page = { ...whole, keys };
  const said = wrapped(stand.answer?.sentence ?? aboutCells(page, canvas), 'plain', columns, 3);
  const room = Math.max(1, rows - said.length - 5);
  const from = Math.max(0, Math.min(at.row - Math.floor(room / 2), all.length - room));
  const shown = all
    .slice(from, from + room)
    .map((row, k) =>
      rowLine(
        page,
        row,
        k === 0 || all[from + k - 1]?.exercise !== row.exercise,
        from + k === at.row ? at.key - firstKey : null,
      ),
    );
  const heads = line(
    seg(' '.repeat(1 + page.names.title + page.names.way)),
    ...keys.map((key) => seg(withSigns(key).padStart(CELL), 'strong')),
  );
  const hidden = all.length > room ? ` ${from + 1} to ${from + shown.length} of ${all.length}` : '';
  return toHeight(
    [
      weeksHead('coverage', canvas),
      line(seg(hidden, 'dim')),
      heads,
      ...toHeight(shown, room),
      line(seg(` ${LEGEND}`, 'dim')),
      ...said,
      foot,
    ],
    rows,
  ).map((one) => fit(one, columns));
};
