/**
 * A rule beside counting marks in a row: it aims at a share of clean repetitions. After each mark the next tempo is
 * the highest rung at which the marks so far let expect that share.
 */
import type { Bpm } from '../../common/units.ts';
import type { Mark } from './ladder-rule.ts';
import { type Rungs, nearestRung } from './rungs.ts';

/** Below, more than four of ten would go wrong; above, lapses alone cost as much. */
export const LOWEST_AIM = 0.6;
export const HIGHEST_AIM = 0.95;

/** Marks of one tempo or of one repetition: how many there were, and how many of them clean. */
export interface CountedMarks {
  readonly clean: number;
  readonly all: number;
}

/** What the aim is taken by, the newest mark included. */
export interface Outlook {
  /** How likely a repetition at a tempo is to be clean, 0 to 1, by the marks so far. */
  readonly cleanAt: (bpm: Bpm) => number;
  /** The line's marks so far, oldest first. */
  readonly played: readonly CountedMarks[];
}

/** No further at once, up or down. */
const MOST_RUNGS = 2;
/** Marks over which a share that came out too high or too low is made up for; without that a first trial overshot. */
const MADE_UP_OVER = 12;
/** An older mark counts by so much less than the one after it. */
const FADES = 0.01;
/** And no more than this is asked at once. */
const MOST_MADE_UP = 0.2;

/** How many clean ones there were more than the aim has it; older marks count less and less. */
const ahead = (aim: number, played: readonly CountedMarks[]): number =>
  played.reduce((sum, { clean, all }) => sum * (1 - FADES) ** all + clean - aim * all, 0);

/** The share to look for now: the aim, a little less where more were clean lately, a little more where fewer were. */
export function shareWanted(aim: number, played: readonly CountedMarks[]): number {
  const by = ahead(aim, played) / MADE_UP_OVER;
  return Math.min(aim - Math.min(Math.max(by, -MOST_MADE_UP), MOST_MADE_UP), 0.97);
}

/** The tempo after a mark: by at most two rungs at once, and upward only after a clean one, down only after another. */
export function aimedTempo(bpm: Bpm, mark: Mark, aim: number, rungs: Rungs, { cleanAt, played }: Outlook): Bpm {
  const wanted = shareWanted(aim, played);
  const here = nearestRung(rungs, bpm);
  const isClean = mark === 'clean';
  const lowest = Math.max(here - (isClean ? 0 : MOST_RUNGS), 0);
  let rung = Math.min(here + (isClean ? MOST_RUNGS : 0), rungs.length - 1);
  while (rung > lowest && cleanAt(rungs[rung]!) < wanted) rung -= 1;
  return rungs[rung] ?? bpm;
}
