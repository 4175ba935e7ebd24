/** A teacher's routine, point by point: how far each exercise of it has come; pure. */
import type { Bpm } from '../../common/units.ts';
import { repetitions } from '../../ladder/speed/line-history.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import { qualifiedName } from '../../plan/routine/exercise-identity.ts';
import { type Exercise, hasLadder } from '../../plan/routine/exercise.ts';
import type { Routine } from '../../plan/routine/routine.ts';
import type { LineOfReport, PracticeReport } from './practice-report.ts';

export interface Point {
  readonly exercise: string;
  readonly title: string;
  readonly target: Bpm | null;
  /** The lowest and highest best of its lines that were played; null while none was held. */
  readonly best: readonly [low: Bpm, high: Bpm] | null;
  /** Lines whose best reaches the target, and lines that the routine asks for. */
  readonly reached: number;
  readonly asked: number;
  readonly marks: number;
  readonly lastDay: string | null;
  /** The answer in one sentence. */
  readonly said: string;
}

/** The student's own copy of the file may keep it under its name, its file and name, or the history it names. */
const namesOf = (exercise: Exercise): ReadonlySet<string> =>
  new Set([exercise.id, exercise.name, qualifiedName(exercise), ...(exercise.history ? [exercise.history] : [])]);

const targetOf = (exercise: Exercise, articulation: string): Bpm => lineRule(exercise, articulation).target;

function bestsOf(lines: readonly LineOfReport[]): Point['best'] {
  const bests = lines.flatMap(({ best }) => best ?? []);
  return bests.length === 0 ? null : [Math.min(...bests), Math.max(...bests)];
}

const tempos = ([low, high]: readonly [Bpm, Bpm]): string =>
  low === high ? bpmText(low) : `${bpmText(low)} to ${bpmText(high)}`;

function sentence({ best, reached, asked, marks, lastDay, target }: Omit<Point, 'said'>): string {
  if (lastDay === null) return 'Not played in these days.';
  const held = best === null ? 'No rung held yet' : `Held ${tempos(best)}${target ? ` of ${bpmText(target)}` : ''}`;
  return `${held}; ${reached} of ${asked} at the target; ${marks} mark${marks === 1 ? '' : 's'}, last on ${lastDay}.`;
}

function pointOf(exercise: Exercise, report: PracticeReport): Point {
  const names = namesOf(exercise);
  const lines = report.lines.filter((line) => names.has(line.exercise));
  const target = hasLadder(exercise) ? exercise.ladder.target : null;
  const known = {
    exercise: exercise.id,
    title: exercise.title,
    target,
    best: bestsOf(lines),
    reached: lines.filter(({ best, articulation }) => best !== null && best >= targetOf(exercise, articulation)).length,
    asked: exercise.keys.length * exercise.articulations.length,
    marks: lines.reduce((sum, { counts }) => sum + repetitions(counts), 0),
    lastDay: lines.reduce<string | null>((last, { lastDay }) => (last && last > lastDay ? last : lastDay), null),
  };
  return { ...known, said: sentence(known) };
}

/** One answer for each exercise with a ladder, in the order of the file. */
export const routineAnswered = ({ exercises }: Routine, report: PracticeReport): readonly Point[] =>
  exercises.filter((exercise) => hasLadder(exercise) && !exercise.retired).map((one) => pointOf(one, report));
