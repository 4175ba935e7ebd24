/** What a line's marks so far let expect of the next repetition: for a rule that aims at a share of clean ones. */
import { type DayNumber, dateOf } from '../../common/days.ts';
import type { Bpm } from '../../common/units.ts';
import type { CountedMarks, Outlook } from '../rule/aim.ts';
import type { Mark } from '../rule/ladder-rule.ts';
import { NO_MARKS, type Tally, repetitions, withMark } from './line-history.ts';
import { type Belief, type Marking, type Normal, afterTallies, chanceOfClean, weightsOn } from './speed-estimate.ts';

/** What is known of a line when it is put on the stand; the marks given since are added to it. */
export interface Expectation {
  readonly marking: Marking;
  readonly belief: Belief;
  readonly prior: Normal;
  readonly day: DayNumber;
  /** The marks behind it, oldest first. */
  readonly played: readonly CountedMarks[];
}

export interface PlayedSince {
  readonly bpm: Bpm;
  readonly mark: Mark;
}

export const counted = (tally: Tally): CountedMarks => ({ clean: tally.clean, all: repetitions(tally) });

/** What a rule that aims goes by after more marks of the same day, the newest last. */
export function outlookAfter(known: Expectation, since: readonly PlayedSince[]): Outlook {
  const { marking, prior, day } = known;
  const tallies = since.map(({ bpm, mark }): Tally => ({ day: dateOf(day), bpm, ...withMark(NO_MARKS, mark) }));
  const weights = weightsOn(afterTallies(marking, known.belief, tallies), prior, day);
  return {
    cleanAt: (bpm) => chanceOfClean(weights, marking(bpm)),
    played: [...known.played, ...tallies.map(counted)],
  };
}
