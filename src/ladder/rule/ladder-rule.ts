import type { Bpm } from '../../common/units.ts';

/** The player's verdict on one repetition. */
export type Mark = 'clean' | 'tense' | 'missed';

/** How far apart the rungs are. */
export type RungStep =
  | { readonly by: 'ratio'; readonly percent: number }
  | { readonly by: 'beats'; readonly bpm: Bpm }
  /** The traditional metronome marks. */
  | { readonly by: 'marks' };

/** What moves a line on its ladder; every number is the exercise's to set. */
export interface LadderRule {
  /**
   * The share of clean repetitions to aim at, 0.6 to 0.95: the next tempo is where the estimate expects it (`aim.ts`).
   * Null where marks in a row are counted instead.
   */
  readonly aim: number | null;
  /** Up one rung after so many clean in a row; whatever moves the ladder, so many make a best. */
  readonly cleanUp: number;
  /** Down after so many missed in a row. */
  readonly missedDown: number;
  /** Down one rung after so many tense in a row; null where tense ones only hold the rung. */
  readonly tenseDown: number | null;
  /** How many rungs up or down. */
  readonly rungsUp: number;
  readonly rungsDown: number;
  readonly step: RungStep;
  /** Lowest and highest rung. */
  readonly floor: Bpm;
  readonly top: Bpm;
  /** Where a line that was never played starts. */
  readonly start: Bpm;
  /** What the player is working towards; drawn on the ladder. */
  readonly target: Bpm;
  /** Rungs may be fractions of a beat per minute. */
  readonly fractions: boolean;
  /** 'climb': the ladder alone. 'alternate': a slow repetition after each one at tempo. */
  readonly order: 'climb' | 'alternate';
  /** The share of the rung's tempo at which the slow repetitions of 'alternate' are played. */
  readonly slowShare: number;
}

/**
 * By the exact chain three of four are clean in the long run; after two missed it would be little more than half
 * (`settling-tempo`). Two tense in a row go down, because effort repeated at one tempo is what a teacher stops.
 */
export const DEFAULT_RULE: LadderRule = {
  aim: null,
  cleanUp: 3,
  missedDown: 1,
  tenseDown: 2,
  rungsUp: 1,
  rungsDown: 1,
  step: { by: 'ratio', percent: 3 },
  floor: 40,
  top: 240,
  start: 60,
  target: 120,
  fractions: false,
  order: 'climb',
  slowShare: 0.6,
};
