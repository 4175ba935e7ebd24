/** What is known of each line's speed, as the practice screen says it; pure. */
import type { DayNumber } from '../common/days.ts';
import type { Bpm } from '../common/units.ts';
import type { Fold } from '../journal/journal-fold.ts';
import type { LineState } from '../journal/line-fold.ts';
import { lineName } from '../ladder/line.ts';
import { DEFAULT_RULE, type LadderRule } from '../ladder/rule/ladder-rule.ts';
import { safeTempoText } from '../ladder/speed/safe-tempo.ts';
import { type Knowledge, estimateOf, learnAllLines } from '../ladder/speed/speed-knowledge.ts';
import { lineRule } from '../plan/rotation/multiple-tonguing-steps.ts';
import { type Exercise, speedUnknownIn } from '../plan/routine/exercise.ts';
import { titleAmong } from '../plan/routine/exercise-identity.ts';
import { cleanShare, countsOf } from '../ladder/speed/line-history.ts';
import { type BestRow, bestsOf } from './bests.ts';
import { gainedIn, questionOf } from './standing.ts';

export interface EstimateRow {
  /** The tempo of nine clean in ten with its 80 % interval, rounded to tenths. */
  readonly bpm: Bpm;
  readonly low: Bpm;
  readonly high: Bpm;
  /** Of the line itself. */
  readonly marks: number;
  /** What may be said of it: 'still finding out (7 marks)' until it can be acted on. */
  readonly said: string;
}

const tenths = (value: number): number => Math.round(value * 10) / 10;

/** An exercise that no routine has any more is thought to have started where its line did. */
const ruleOf = ({ line, tallies }: LineState, exercise: Exercise | undefined): LadderRule =>
  exercise ? lineRule(exercise, line.articulation) : { ...DEFAULT_RULE, start: tallies[0]?.bpm ?? DEFAULT_RULE.start };

function estimateRow(knowledge: Knowledge, state: LineState, rule: LadderRule, day: DayNumber): EstimateRow | null {
  const { line, notesPerBeat, tallies } = state;
  if (tallies.length === 0) return null;
  const estimate = estimateOf(knowledge, { line, notesPerBeat, rule, day });
  const { bpm, low, high, marks } = estimate;
  const said = safeTempoText(estimate, (tempo) => `${Math.round(tempo)}`);
  return { bpm: tenths(bpm), low: tenths(low), high: tenths(high), marks, said };
}

/** A best with all there is to say of its line. */
export interface BestLine extends BestRow {
  readonly title: string;
  /** Of all its marks, 0 to 1. */
  readonly clean: number | null;
  readonly target: Bpm | null;
  /** Beats per minute that the safe tempo gained in four weeks; null where either end is not known well enough. */
  readonly trend: Bpm | null;
  readonly lastDay: string;
  /** Null before its first mark. */
  readonly estimate: EstimateRow | null;
}

const FOUR_WEEKS = 28;

function trendOf(knowledge: Knowledge, state: LineState, exercise: Exercise | undefined, day: DayNumber): Bpm | null {
  if (state.tallies.length === 0) return null;
  const gain = gainedIn(knowledge, state, questionOf(exercise ?? null, state, day), FOUR_WEEKS);
  return gain === null ? null : tenths(gain);
}

/** The bests with what is known of each line's speed. */
export function bestsWithEstimates(
  fold: Fold,
  exercises: ReadonlyMap<string, Exercise>,
  day: DayNumber,
): readonly BestLine[] {
  const knowledge = learnAllLines(fold.lines.values());
  return bestsOf(fold, speedUnknownIn(exercises)).flatMap((row) => {
    const state = fold.lines.get(lineName(row));
    if (!state) return [];
    const exercise = exercises.get(row.exercise);
    const rule = ruleOf(state, exercise);
    return {
      ...row,
      title: exercise ? titleAmong(exercise, [...exercises.values()]) : row.exercise,
      clean: cleanShare(countsOf(state)),
      target: exercise ? rule.target : null,
      trend: trendOf(knowledge, state, exercise, day),
      lastDay: state.lastDay,
      estimate: estimateRow(knowledge, state, rule, day),
    };
  });
}
