/** What the pages of the weeks show: lines found, lines of one kind, cells; worked out once for what is known. */
import { dayNumber } from '../../common/days.ts';
import type { Bpm } from '../../common/units.ts';
import { remembered } from '../../common/remembered.ts';
import { type Line, lineName } from '../../ladder/line.ts';
import { type Exercise, hasLadder } from '../../plan/routine/exercise.ts';
import { plainly } from '../../plan/today/find-exercises.ts';
import { speedOverWeeks } from '../../review/speed-weeks.ts';
import { type Lines, type Standing, gainedIn, questionOf, standingsOf } from '../../review/standing.ts';
import { type WeeksSentence, weeksSentences } from '../../review/weeks-sentences.ts';
import { withKnowledge } from '../sitting/line-speed.ts';
import type { KnownSoFar } from '../stand.ts';
import type { WeeksPlace } from './weeks-place.ts';

/** What the pages are made from. */
export const linesKnown: (known: KnownSoFar) => Lines = remembered((known: KnownSoFar) => withKnowledge(known));

/** Every line that was ever marked, the neediest first: worked out once for what is known. */
export const standingsNow = remembered((known: KnownSoFar) => standingsOf(linesKnown(known)));

export const sentencesNow: (known: KnownSoFar) => readonly WeeksSentence[] = remembered((known: KnownSoFar) =>
  weeksSentences(linesKnown(known), standingsNow(known)),
);

const textOf = ({ title, line, exercise }: Standing): string =>
  plainly(`${title} ${line.key} ${line.articulation} ${exercise?.kind ?? ''} ${exercise?.material ?? ''}`);

const wordsOf = (typed: string): readonly string[] => plainly(typed).split(/\s+/).filter(Boolean);

/** The lines that are shown: those that every word typed stands in, and that are of what alone is wanted. */
export function standingsShown(known: KnownSoFar, { typed, only }: Pick<WeeksPlace, 'typed' | 'only'>) {
  const words = wordsOf(typed);
  const isWanted = ({ exercise, line }: Standing): boolean =>
    (only.exercise === null || line.exercise === only.exercise) &&
    (only.articulation === null || line.articulation === only.articulation) &&
    (only.kind === null || exercise?.kind === only.kind);
  return standingsNow(known).filter((one) => isWanted(one) && words.every((word) => textOf(one).includes(word)));
}

/** The line under the finger, or the one that is looked at; null where there is none. */
export function standingHere(known: KnownSoFar, place: WeeksPlace): Standing | null {
  if (place.page === 'line') return standingsNow(known).find(({ line }) => lineName(line) === place.line) ?? null;
  return standingsShown(known, place)[place.row] ?? null;
}

/** For each line once, as long as nothing new is known of it. */
function forEachStanding<Result>(work: (lines: Lines, standing: Standing) => Result) {
  const answers = new WeakMap<Standing, Result>();
  return (known: KnownSoFar, standing: Standing): Result => {
    const found = answers.get(standing) ?? work(linesKnown(known), standing);
    answers.set(standing, found);
    return found;
  };
}

const HALF_YEAR = 26;

export const halfYearOf = forEachStanding((lines, standing) => speedOverWeeks(lines, standing, HALF_YEAR));

const FOUR_WEEKS = 28;

/** Beats per minute gained in four weeks; null where either end is not known well enough. */
export const monthsGain = forEachStanding(({ lines, knowledge, today }, { line, exercise }): Bpm | null => {
  const history = lines[lineName(line)];
  return history ? gainedIn(knowledge, history, questionOf(exercise, history, dayNumber(today)), FOUR_WEEKS) : null;
});

/** One row of the coverage: an exercise in one articulation. */
export interface CoverageRow {
  readonly exercise: Exercise;
  readonly articulation: string;
}

const wasPlayed = ({ lines }: KnownSoFar, { id }: Exercise): boolean =>
  Object.values(lines).some(({ line, tallies }) => line.exercise === id && tallies.length > 0);

/** Of every exercise that was ever marked, its ways of tonguing. */
export const coverageRows = remembered((known: KnownSoFar): readonly CoverageRow[] =>
  known.exercises
    .filter((exercise) => hasLadder(exercise) && !exercise.retired && wasPlayed(known, exercise))
    .flatMap((exercise) => exercise.articulations.map((articulation) => ({ exercise, articulation }))),
);

/** Keys of everything in the coverage, in the order of the first exercise that has them. */
export const coverageKeys = remembered((known: KnownSoFar): readonly string[] => [
  ...new Set(
    coverageRows(known)
      .toSorted(byManyKeys)
      .flatMap(({ exercise }) => exercise.keys),
  ),
]);

const byManyKeys = (a: CoverageRow, b: CoverageRow): number => b.exercise.keys.length - a.exercise.keys.length;

/** The cell under the finger as a line; null where the exercise has no such key. */
export function cellHere(known: KnownSoFar, { cell }: WeeksPlace): (CoverageRow & { readonly line: Line }) | null {
  const row = coverageRows(known)[cell.row];
  const key = coverageKeys(known)[cell.key];
  if (!row || key === undefined || !row.exercise.keys.includes(key)) return null;
  return { ...row, line: { exercise: row.exercise.id, articulation: row.articulation, key } };
}
