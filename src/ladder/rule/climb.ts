/** The rule of the ladder, which stands once: practice asks it for the next tempo, the journal is read by it. */
import type { Bpm } from '../../common/units.ts';
import { type Outlook, aimedTempo } from './aim.ts';
import { type Rungs, rungFrom } from './rungs.ts';
import type { LadderRule, Mark } from './ladder-rule.ts';

export interface Climb {
  /** The tempo of the next repetition. */
  readonly bpm: Bpm;
  /** Clean repetitions in a row at this rung so far. */
  readonly cleanRun: number;
  /** Missed repetitions in a row at this rung so far. */
  readonly missedRun: number;
  /** Tense repetitions in a row at this rung so far; absent where there is none. */
  readonly tenseRun?: number;
  /** Highest rung held; null until one is. */
  readonly best: Bpm | null;
}

/** One marked repetition as it is kept: at which tempo, by which rule, and where the ladder stood afterwards. */
export interface MarkedRepetition {
  readonly mark: Mark;
  readonly bpm: Bpm;
  readonly cleanUp: number;
  readonly missedDown: number;
  /** Absent where tense ones only hold the rung, as they all did in journals from before there was such a rule. */
  readonly tenseDown?: number;
  readonly next: Bpm;
}

export const startAt = (bpm: Bpm, best: Bpm | null = null): Climb => ({ bpm, cleanRun: 0, missedRun: 0, best });

const higher = (a: Bpm | null, b: Bpm): Bpm => (a === null ? b : Math.max(a, b));

/** The runs with one mark more; they start again where it was made at another tempo than the ladder stood on. */
function runsWith(climb: Climb, { mark, bpm, tenseDown }: Omit<MarkedRepetition, 'cleanUp' | 'missedDown' | 'next'>) {
  const { cleanRun, missedRun, tenseRun = 0 } = climb.bpm === bpm ? climb : startAt(bpm);
  return {
    cleanRun: mark === 'clean' ? cleanRun + 1 : 0,
    missedRun: mark === 'missed' ? missedRun + 1 : 0,
    ...(mark === 'tense' && tenseDown !== undefined ? { tenseRun: tenseRun + 1 } : {}),
  };
}

const isTenseEnough = ({ tenseRun = 0 }: Pick<Climb, 'tenseRun'>, tenseDown: number | undefined): boolean =>
  tenseDown !== undefined && tenseRun >= tenseDown;

/**
 * What a kept mark did to the ladder. Reaching N clean in a row makes the rung a best, if it is the highest so far;
 * a tense mark ends the runs of the clean and of the missed.
 */
export function withMarked(climb: Climb, marked: MarkedRepetition): Climb {
  const { bpm, cleanUp, missedDown, tenseDown, next } = marked;
  const runs = runsWith(climb, marked);
  const held = runs.cleanRun >= cleanUp;
  const best = held ? higher(climb.best, bpm) : climb.best;
  const isOver = held || runs.missedRun >= missedDown || isTenseEnough(runs, tenseDown) || next !== bpm;
  return isOver ? startAt(next, best) : { bpm: next, ...runs, best };
}

/** As a mark keeps it: absent where tense ones only hold the rung. */
const tenseOf = ({ tenseDown }: Pick<LadderRule, 'tenseDown'>): { readonly tenseDown?: number } =>
  tenseDown === null ? {} : { tenseDown };

type Counts = Pick<LadderRule, 'cleanUp' | 'missedDown' | 'tenseDown' | 'rungsUp' | 'rungsDown'>;

/** Where the next repetition is played. A rule that aims and has nothing to take aim by counts instead. */
function nextTempo(climb: Climb, mark: Mark, rule: LadderRule, rungs: Rungs, outlook: Outlook | null): Bpm {
  if (rule.aim === null || outlook === null) return countedTempo(climb, mark, rule, rungs);
  return aimedTempo(climb.bpm, mark, rule.aim, rungs, outlook);
}

/** Up after N clean in a row, down after M missed or some tense in a row; anything else holds the rung. */
function countedTempo(climb: Climb, mark: Mark, rule: Counts, rungs: Rungs): Bpm {
  const runs = runsWith(climb, { mark, bpm: climb.bpm, ...tenseOf(rule) });
  if (runs.cleanRun >= rule.cleanUp) return rungFrom(rungs, climb.bpm, rule.rungsUp);
  if (runs.missedRun >= rule.missedDown) return rungFrom(rungs, climb.bpm, -rule.rungsDown);
  if (isTenseEnough(runs, rule.tenseDown ?? undefined)) return rungFrom(rungs, climb.bpm, -1);
  return climb.bpm;
}

/** A repetition at this tempo with its verdict, as it is to be kept; `outlook` is for a rule that aims. */
export function markedAt(
  climb: Climb,
  bpm: Bpm,
  mark: Mark,
  rule: LadderRule,
  rungs: Rungs,
  outlook: Outlook | null = null,
): MarkedRepetition {
  const { cleanUp, missedDown } = rule;
  const at = climb.bpm === bpm ? climb : startAt(bpm, climb.best);
  return { mark, bpm, cleanUp, missedDown, ...tenseOf(rule), next: nextTempo(at, mark, rule, rungs, outlook) };
}

/** What one mark at the ladder's own tempo does to it. */
export const afterMark = (
  climb: Climb,
  mark: Mark,
  rule: LadderRule,
  rungs: Rungs,
  outlook: Outlook | null = null,
): Climb => withMarked(climb, markedAt(climb, climb.bpm, mark, rule, rungs, outlook));

/** The player moves the ladder by hand: the runs start again. */
export const nudged = (climb: Climb, by: number, rungs: Rungs): Climb =>
  startAt(rungFrom(rungs, climb.bpm, by), climb.best);
