/** All exercises as a drawing: where each line was left, and which one is chosen. */
import { lineName } from '../../ladder/line.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { cleanShare, countsOf } from '../../ladder/speed/line-history.ts';

import { ladderLine } from '../../plan/rotation/ladder-line.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import { lineChosen } from '../../practice/screens/line-choice.ts';
import { crossingOf } from '../../practice/sitting/line-speed.ts';
import type { Stand } from '../../practice/stand.ts';
import type { DrawScreen } from './screen.ts';
import { BLANK, type PaintedLine, type Tone, fit, line, seg, toHeight, wrapped } from '../paint.ts';

const percent = (share: number | null): string => (share === null ? '' : `${Math.round(share * 100)} %`);

const COLUMNS = { key: 10, articulation: 16, next: 7, best: 7, clean: 7, last: 12 } as const;
const FIXED = Object.values(COLUMNS).reduce((sum, width) => sum + width, 0);

interface Cells {
  readonly title: string;
  readonly key: string;
  readonly articulation: string;
  readonly next: string;
  readonly best: string;
  readonly clean: string;
  readonly last: string;
}

/** Too long a word is cut short by an ellipsis and keeps a blank behind it. */
const column = (text: string, width: number): string =>
  (text.length >= width ? `${text.slice(0, width - 2)}…` : text).padEnd(width);

function row(cells: Cells, tone: Tone, width: number, sign: string): PaintedLine {
  const { title, key, articulation, next, best, clean, last } = cells;
  return line(
    seg(` ${sign} ${column(title, width - FIXED - 4)}`, tone),
    seg(column(key, COLUMNS.key), tone),
    seg(column(articulation, COLUMNS.articulation), tone),
    seg(next.padStart(COLUMNS.next) + best.padStart(COLUMNS.best) + clean.padStart(COLUMNS.clean), tone),
    seg(last.padStart(COLUMNS.last), tone === 'now' ? tone : 'dim'),
  );
}

const HEAD: Cells = {
  title: '',
  key: 'key',
  articulation: 'articulation',
  next: 'now',
  best: 'best',
  clean: 'clean',
  last: 'last played',
};

function exerciseRow(stand: Stand, index: number, width: number): PaintedLine {
  const exercise = stand.known.exercises[index];
  if (!exercise) return BLANK;
  const chosenLine = lineChosen(stand.choice, exercise);
  const known = stand.known.lines[lineName(ladderLine(exercise, chosenLine))];
  const isHere = index === stand.choice.row;
  const cells: Cells = {
    title: exercise.title,
    key: chosenLine.key,
    articulation: chosenLine.articulation,
    next: bpmText(known?.bpm ?? lineRule(exercise, chosenLine.articulation).start),
    best: known?.best ? bpmText(known.best.bpm) : '–',
    clean: known ? percent(cleanShare(countsOf(known))) : '',
    last: known?.lastDay === stand.known.today ? 'today' : known?.lastDay || 'never',
  };
  return row(cells, isHere ? 'now' : 'plain', width, isHere ? '▶' : ' ');
}

/** The first row shown, so that the chosen one is always in sight. */
const scrollTo = (chosen: number, total: number, room: number): number =>
  Math.max(0, Math.min(chosen - Math.floor(room / 2), total - room));

/** Where single tires and double or triple takes over, for the chosen exercise and key. */
function crossingNow({ known, choice }: Stand): readonly string[] {
  const exercise = known.exercises[choice.row];
  const { knowledge } = known;
  if (!exercise || !knowledge) return [];
  const found = crossingOf({ ...known, knowledge }, exercise, lineChosen(choice, exercise).key);
  return found ? [`${found.sentence} ${found.drill}`] : [];
}

/** The answer to the last key, or what else there is to say. */
function remark(stand: Stand): string {
  const silence = stand.output?.state === 'silent' ? [stand.output.sentence] : [];
  const answer = stand.answer ? [stand.answer.sentence] : [];
  return [...answer, ...crossingNow(stand), ...stand.notices, ...silence][0] ?? '';
}

export const exercisesScreen: DrawScreen<'exercises'> = (stand, { columns, rows, foot }) => {
  const { exercises, today } = stand.known;
  const room = rows - 8;
  const first = scrollTo(stand.choice.row, exercises.length, room);
  const shown = exercises.slice(first, first + room).map((_, k) => exerciseRow(stand, first + k, columns));
  const exercise = exercises[stand.choice.row];
  const material = exercise?.material ? `On the stand: ${exercise.material}` : '';
  const said = toHeight(wrapped(remark(stand), 'dim', columns), 3);
  const head = fit(line(seg(' Exercises', 'strong'), seg(`  ${today}`, 'dim')), columns);
  return toHeight(
    [head, BLANK, row(HEAD, 'dim', columns, ' '), ...toHeight(shown, room), line(seg(` ${material}`)), ...said, foot],
    rows,
  ).map((painted) => fit(painted, columns));
};
