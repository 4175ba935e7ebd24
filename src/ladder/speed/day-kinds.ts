/**
 * How a player may change from day to day. Nobody knows beforehand which of these somebody is: each stands beside
 * every curve in the grid, and the marks decide, as they do for slope and lapses.
 */
export interface DayKind {
  /** Standard deviation of what a night changes for good, natural log of the tempo. */
  readonly drift: number;
  /** Standard deviation of a day's own form, which is gone the day after. Runs of luck and tiring count as form too. */
  readonly form: number;
  /** Gained from one day of practice to the next. At most about the drift: the grid is too coarse for less. */
  readonly gain: number;
  readonly weight: number;
}

/** From judgement, not from a study; wide on purpose. */
export const DAY_KINDS: readonly DayKind[] = [
  { drift: 0.004, form: 0.01, gain: 0, weight: 0.32 },
  { drift: 0.004, form: 0.045, gain: 0, weight: 0.13 },
  { drift: 0.012, form: 0.025, gain: 0, weight: 0.25 },
  { drift: 0.028, form: 0.025, gain: 0, weight: 0.17 },
  { drift: 0.026, form: 0.025, gain: 0.02, weight: 0.13 },
];
