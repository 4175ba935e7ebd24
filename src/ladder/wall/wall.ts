/** Walls: a rung that a line keeps falling from. Seen from several days of marks, never from one. */
import { type DayNumber, dayNumber } from '../../common/days.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Bpm } from '../../common/units.ts';

import {
  type Marking,
  NO_BELIEF,
  type Normal,
  type SpeedEstimate,
  afterTallies,
  speedEstimate,
} from '../speed/speed-estimate.ts';
import { type LineHistory, type Tally, repetitions } from '../speed/line-history.ts';
import type { LadderRule } from '../rule/ladder-rule.ts';
import { type Rungs, nearestRung, rungFrom } from '../rule/rungs.ts';

export interface Wall {
  readonly bpm: Bpm;
  readonly seen: 'falls' | 'flat';
  /** One line for the player. */
  readonly sentence: string;
}

interface WallInput {
  readonly history: LineHistory;
  readonly rule: LadderRule;
  readonly rungs: Rungs;
  readonly marking: Marking;
  readonly prior: Normal;
  readonly day: DayNumber;
}

/** Falls on so many days, of the last so many days of practice, make a wall; the first and last this far apart. */
const FALLS = 3;
const OF_DAYS = 7;
const APART = 4;
/** An estimate is flat that has risen less than this over so many weeks, each with two days of practice. */
const FLAT_SHARE = 0.02;
const FLAT_WEEKS = 4;
/** A wall is of today: not of a line left alone for longer. */
const STALE_DAYS = 21;

interface PracticeDay {
  readonly day: DayNumber;
  readonly tallies: readonly Tally[];
}

function practiceDays({ tallies }: LineHistory): readonly PracticeDay[] {
  const days = new Map<string, Tally[]>();
  for (const tally of tallies) days.set(tally.day, [...(days.get(tally.day) ?? []), tally]);
  return [...days].map(([day, of]) => ({ day: dayNumber(day), tallies: of }));
}

const topOf = ({ tallies }: PracticeDay): Tally => tallies.reduce((top, tally) => (tally.bpm > top.bpm ? tally : top));

/** The rung that stopped a day: its highest, missed as often as the rule asks for to go down, and mostly not clean. */
function fallOf(practised: PracticeDay, rule: LadderRule): Bpm | null {
  const top = topOf(practised);
  const failed = top.missed >= rule.missedDown && top.clean < repetitions(top) / 2;
  return failed ? top.bpm : null;
}

interface Fall {
  readonly day: DayNumber;
  readonly bpm: Bpm;
}

/** The falls within one rung of the newest. */
function fallsTogether(days: readonly PracticeDay[], { rule, rungs }: WallInput): readonly Fall[] {
  const falls = days.flatMap((practised): Fall[] => {
    const bpm = fallOf(practised, rule);
    return bpm === null ? [] : [{ day: practised.day, bpm }];
  });
  const newest = falls.at(-1);
  return falls.filter(({ bpm }) => Math.abs(nearestRung(rungs, bpm) - nearestRung(rungs, newest!.bpm)) <= 1);
}

/** The rung of most falls; of two, the lower. */
function commonest(falls: readonly Fall[]): Bpm {
  const times = (bpm: Bpm): number => falls.filter((fall) => fall.bpm === bpm).length;
  return falls
    .map(({ bpm }) => bpm)
    .reduce((a, b) => (times(b) > times(a) || (times(b) === times(a) && b < a) ? b : a));
}

function wallOfFalls(days: readonly PracticeDay[], input: WallInput): Wall | null {
  const recent = days.slice(-OF_DAYS);
  const falls = fallsTogether(recent, input);
  if (falls.length < FALLS || falls.at(-1)!.day - falls[0]!.day < APART) return null;
  const bpm = commonest(falls);
  const { best } = input.history;
  // Held since the first of these falls: it was in the way, and is no more.
  if (best && best.bpm >= bpm && dayNumber(best.day) > falls[0]!.day) return null;
  const sentence =
    `${bpmText(bpm)} is a wall: you fell from there on ${falls.length} of the last ` +
    `${recent.length} days of practice.`;
  return { bpm, seen: 'falls', sentence };
}

const readAt = (input: WallInput, day: DayNumber): SpeedEstimate => {
  const until = input.history.tallies.filter((tally) => dayNumber(tally.day) <= day);
  return speedEstimate(afterTallies(input.marking, NO_BELIEF, until), input.prior, day);
};

/** Whether each of the last weeks had two days of practice: only practice can show that nothing moves. */
const practisedWeekly = (days: readonly PracticeDay[], last: DayNumber): boolean =>
  Array.from({ length: FLAT_WEEKS + 1 }, (_, week) => last - 7 * week).every(
    (end) => days.filter(({ day }) => day <= end && day > end - 7).length >= 2,
  );

function wallOfFlat(days: readonly PracticeDay[], input: WallInput): Wall | null {
  const last = days.at(-1)!.day;
  if (!practisedWeekly(days, last)) return null;
  const now = readAt(input, last);
  const then = readAt(input, last - 7 * FLAT_WEEKS);
  const risen = Math.log(now.bpm / then.bpm);
  const sure = now.high / now.low < 1.25;
  if (risen >= FLAT_SHARE || !sure || now.bpm >= input.rule.target) return null;
  const bpm = rungFrom(input.rungs, now.bpm, 1);
  return {
    bpm,
    seen: 'flat',
    sentence: `A wall near ${bpmText(bpm)}: ${FLAT_WEEKS} weeks of practice have not made this line faster.`,
  };
}

/** The wall that a line stands before today, or null. One bad day is never one. */
export function wallOf(input: WallInput): Wall | null {
  const days = practiceDays(input.history).filter(({ day }) => day <= input.day);
  if (days.length < FALLS || input.day - days.at(-1)!.day > STALE_DAYS) return null;
  return wallOfFalls(days, input) ?? wallOfFlat(days, input);
}
