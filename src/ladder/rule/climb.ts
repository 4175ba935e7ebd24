/** The rule of the ladder, which stands once: practice asks it for the next tempo, the journal is read by it. */
import type { Bpm } from '../../common/units.ts';
import { type Rungs, rungFrom } from './rungs.ts';
import type { LadderRule, Mark } from './ladder-rule.ts';

export interface Climb {
  /** The tempo of the next repetition. */
  readonly bpm: Bpm;
  /** Clean repetitions in a row at this rung so far. */
  readonly cleanRun: number;
  /** Missed repetitions in a row at this rung so far. */
  readonly missedRun: number;
  /** Highest rung held; null until one is. */
  readonly best: Bpm | null;
}

/** One marked repetition as it is kept: at which tempo, by which rule, and where the ladder stood afterwards. */
export interface MarkedRepetition {
  readonly mark: Mark;
  readonly bpm: Bpm;
  readonly cleanUp: number;
  readonly missedDown: number;
  readonly next: Bpm;
}

export const startAt = (bpm: Bpm, best: Bpm | null = null): Climb => ({ bpm, cleanRun: 0, missedRun: 0, best });

const higher = (a: Bpm | null, b: Bpm): Bpm => (a === null ? b : Math.max(a, b));

/** The runs with one mark more; they start again where it was made at another tempo than the ladder stood on. */
function runsWith(climb: Climb, { mark, bpm }: Pick<MarkedRepetition, 'mark' | 'bpm'>) {
  const { cleanRun, missedRun } = climb.bpm === bpm ? climb : startAt(bpm);
  return {
    cleanRun: mark === 'clean' ? cleanRun + 1 : 0,
    missedRun: mark === 'missed' ? missedRun + 1 : 0,
  };
}

/**
 * What a kept mark did to the ladder. Reaching N clean in a row makes the rung a best, if it is the highest so far;
 * a tense mark ends both runs.
 */
export function withMarked(climb: Climb, marked: MarkedRepetition): Climb {
  const { bpm, cleanUp, missedDown, next } = marked;
  const runs = runsWith(climb, marked);
  const held = runs.cleanRun >= cleanUp;
  const best = held ? higher(climb.best, bpm) : climb.best;
  const isOver = held || runs.missedRun >= missedDown || next !== bpm;
  return isOver ? startAt(next, best) : { bpm: next, ...runs, best };
}

type Counts = Pick<LadderRule, 'cleanUp' | 'missedDown' | 'rungsUp' | 'rungsDown'>;

/** Up after N clean in a row, down after M missed in a row; anything else holds the rung. */
function nextTempo(climb: Climb, mark: Mark, rule: Counts, rungs: Rungs): Bpm {
  const { cleanRun, missedRun } = runsWith(climb, { mark, bpm: climb.bpm });
  if (cleanRun >= rule.cleanUp) return rungFrom(rungs, climb.bpm, rule.rungsUp);
  if (missedRun >= rule.missedDown) return rungFrom(rungs, climb.bpm, -rule.rungsDown);
  return climb.bpm;
}

/** A repetition at this tempo with its verdict, as it is to be kept. */
export function markedAt(climb: Climb, bpm: Bpm, mark: Mark, rule: LadderRule, rungs: Rungs): MarkedRepetition {
  const { cleanUp, missedDown } = rule;
  const at = climb.bpm === bpm ? climb : startAt(bpm, climb.best);
  return { mark, bpm, cleanUp, missedDown, next: nextTempo(at, mark, rule, rungs) };
}

/** What one mark at the ladder's own tempo does to it. */
export const afterMark = (climb: Climb, mark: Mark, rule: LadderRule, rungs: Rungs): Climb =>
  withMarked(climb, markedAt(climb, climb.bpm, mark, rule, rungs));

/** The player moves the ladder by hand: the runs start again. */
export const nudged = (climb: Climb, by: number, rungs: Rungs): Climb =>
  startAt(rungFrom(rungs, climb.bpm, by), climb.best);
