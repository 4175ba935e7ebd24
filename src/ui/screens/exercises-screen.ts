/** All exercises as a drawing: where each line was left, and which one is chosen. */
import { type Line, lineName } from '../../ladder/line.ts';
import { withSigns } from '../../music/pitch/note-names.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { cleanShare, countsOf } from '../../ladder/speed/line-history.ts';

import { fileToTell, titleAmong } from '../../plan/routine/exercise-identity.ts';
import { type Exercise, hasLadder } from '../../plan/routine/exercise.ts';
import { ladderLine } from '../../plan/rotation/ladder-line.ts';
import { lineChosen, listed } from '../../practice/screens/line-choice.ts';
import { crossingOf, withKnowledge } from '../../practice/sitting/line-speed.ts';
import { climbToday } from '../../practice/sitting/opening-tempo.ts';
import type { Stand } from '../../practice/stand.ts';
import type { DrawScreen } from './screen.ts';
import { BLANK, type PaintedLine, type Tone, fit, line, seg, toHeight, wrapped } from '../paint.ts';
import { cell } from '../text-width.ts';

const percent = (share: number | null): string => (share === null ? '' : `${Math.round(share * 100)} %`);

/** Columns by how wide the screen is: where it is narrow the day of the last time is left out, by name in the head. */
const WIDE = { key: 10, articulation: 16, next: 7, best: 7, clean: 7, last: 12 } as const;
const NARROW = { key: 9, articulation: 13, next: 5, best: 5, clean: 6, last: 0 } as const;
const WIDE_FROM = 80;
const columnsFor = (width: number): Readonly<Record<keyof typeof WIDE, number>> => (width >= WIDE_FROM ? WIDE : NARROW);

interface Cells {
  readonly title: string;
  readonly key: string;
  readonly articulation: string;
  readonly next: string;
  readonly best: string;
  readonly clean: string;
  readonly last: string;
}

function row(cells: Cells, tone: Tone, width: number, sign: string): PaintedLine {
  const { title, key, articulation, next, best, clean, last } = cells;
  const of = columnsFor(width);
  const fixed = Object.values(of).reduce((sum, one) => sum + one, 0);
  return line(
    seg(` ${sign} ${cell(title, width - fixed - 4)}`, tone),
    seg(cell(key, of.key), tone),
    seg(cell(articulation, of.articulation), tone),
    seg(next.padStart(of.next) + best.padStart(of.best) + clean.padStart(of.clean), tone),
    seg(of.last === 0 ? '' : last.padStart(of.last), tone === 'now' ? tone : 'dim'),
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

/** The tempo that the stand would open it at; none where the clock or breaths move the work. */
function tempoToday(stand: Stand, exercise: Exercise, of: Line): string {
  if (!hasLadder(exercise)) return '–';
  const known = withKnowledge(stand.known);
  return bpmText(climbToday(known, exercise, ladderLine(exercise, of)).climb.bpm);
}

function exerciseRow(stand: Stand, index: number, width: number): PaintedLine {
  const exercise = stand.known.exercises[index];
  if (!exercise) return BLANK;
  const chosenLine = lineChosen(stand.choice, exercise);
  const known = stand.known.lines[lineName(ladderLine(exercise, chosenLine))];
  const isHere = index === stand.choice.row;
  const cells: Cells = {
    title: titleAmong(exercise, stand.known.exercises),
    key: withSigns(chosenLine.key),
    articulation: chosenLine.articulation,
    next: tempoToday(stand, exercise, chosenLine),
    best: known?.best ? bpmText(known.best.bpm) : '–',
    clean: known ? percent(cleanShare(countsOf(known))) : '',
    last: exercise.retired
      ? 'retired'
      : exercise.elsewhere && !known
        ? 'for others'
        : known?.lastDay === stand.known.today
          ? 'today'
          : known?.lastDay || 'never',
  };
  return row(
    cells,
    isHere ? 'now' : exercise.retired || exercise.elsewhere ? 'dim' : 'plain',
    width,
    isHere ? '▶' : ' ',
  );
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

/** What to get for the chosen exercise, and its file where the title alone does not tell it. */
function aboutChosen(exercise: Exercise, among: readonly Exercise[]): string {
  const file = fileToTell(exercise, among);
  return [
    ...(exercise.material ? [`On the stand: ${exercise.material}`] : []),
    ...(file === null ? [] : [`From the file ${file}.`]),
  ].join('. ');
}

export const exercisesScreen: DrawScreen<'exercises'> = (stand, { columns, rows, foot }) => {
  const { exercises: all, today } = stand.known;
  const exercises = all.slice(0, listed(stand.choice, all));
  const room = rows - 8;
  const first = scrollTo(stand.choice.row, exercises.length, room);
  const shown = exercises.slice(first, first + room).map((_, k) => exerciseRow(stand, first + k, columns));
  const exercise = exercises[stand.choice.row];
  const about = exercise ? aboutChosen(exercise, exercises) : '';
  const said = toHeight(wrapped(remark(stand), 'dim', columns), 3);
  const last = Math.min(exercises.length, first + room);
  const part = exercises.length > room ? `  ${first + 1} to ${last} of ${exercises.length}` : '';
  const head = fit(line(seg(' Exercises', 'strong'), seg(`  ${today}${part}`, 'dim')), columns);
  return toHeight(
    [head, BLANK, row(HEAD, 'dim', columns, ' '), ...toHeight(shown, room), line(seg(` ${about}`)), ...said, foot],
    rows,
  ).map((painted) => fit(painted, columns));
};
