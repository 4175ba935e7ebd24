/** Walls: a rung that a line keeps falling from while weeks of practice bring nothing. */
import { type DayNumber, dateOf, dayNumber, mondayOf } from '../../common/days.ts';
import { bpmText } from '../../music/time/tempo-text.ts';
import type { Bpm } from '../../common/units.ts';

import { type Marking, type Normal, type SpeedEstimate, beliefFrom, speedEstimate } from '../speed/speed-estimate.ts';
import { type LineHistory, type Tally, repetitions } from '../speed/line-history.ts';
import type { LadderRule } from '../rule/ladder-rule.ts';
import { type Rungs, nearestRung, rungFrom } from '../rule/rungs.ts';
import { type PracticeDay, standstill } from './progress.ts';

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

/** Falls on so many days, of the last so many days of practice, name the wall. */
const FALLS = 3;
const OF_DAYS = 7;
/**
 * Standing still over some last weeks must be so much more likely than slow progress, natural log: 1 week in 20 is
 * wrong otherwise. Three weeks tell soonest, six tell of those whose marks say little.
 */
const STANDSTILLS = [
  { weeks: 3, sure: 1.5 },
  { weeks: 6, sure: 2 },
] as const;
/** Weeks with two days of practice each, the last of them: only practice can show that nothing moves. */
const WEEKS_OF_PRACTICE = 3;
/** A wall is of today: not of a line left alone for longer. */
const STALE_DAYS = 21;

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

/** The day on which the newest whole week ended, a Sunday: progress is judged once a week. */
const endOfWeek = (day: DayNumber): DayNumber => mondayOf(dateOf(day)) - 1;

const practisedWeekly = (days: readonly PracticeDay[], until: DayNumber): boolean =>
  Array.from({ length: WEEKS_OF_PRACTICE }, (_, week) => until - 7 * week).every(
    (end) => days.filter(({ day }) => day <= end && day > end - 7).length >= 2,
  );

function hasStopped(days: readonly PracticeDay[], { marking }: WallInput, until: DayNumber): boolean {
  if (!practisedWeekly(days, until)) return false;
  const weeks = STANDSTILLS.map((one) => one.weeks);
  return standstill(marking, days, until, weeks).some((likelier, i) => likelier > STANDSTILLS[i]!.sure);
}

const STOPPED = 'weeks of practice have not made this line faster';

function namedByFalls(days: readonly PracticeDay[], input: WallInput): Wall | null {
  const recent = days.slice(-OF_DAYS);
  const falls = fallsTogether(recent, input);
  if (falls.length < FALLS) return null;
  const bpm = commonest(falls);
  const sentence =
    `${bpmText(bpm)} is a wall: you fell from there on ${falls.length} of the last ` +
    `${recent.length} days of practice, and ${STOPPED}.`;
  return { bpm, seen: 'falls', sentence };
}

function namedByEstimate(now: SpeedEstimate, { rungs }: WallInput): Wall {
  const bpm = rungFrom(rungs, now.bpm, 1);
  return { bpm, seen: 'flat', sentence: `A wall near ${bpmText(bpm)}: ${STOPPED}.` };
}

/** Held since progress was judged: it was in the way, and is no more. */
const isHeld = ({ bpm }: Wall, { history: { best } }: WallInput, judged: DayNumber): boolean =>
  best !== null && best.bpm >= bpm && dayNumber(best.day) > judged;

/**
 * The wall that a line stands before today, or null. Neither one bad day nor falls alone are one: weeks of practice
 * must have brought nothing. Where it stands is where the falls are, or else next above the estimate.
 */
export function wallOf(input: WallInput): Wall | null {
  const days = practiceDays(input.history).filter(({ day }) => day <= input.day);
  if (days.length === 0 || input.day - days.at(-1)!.day > STALE_DAYS) return null;
  const judged = endOfWeek(input.day);
  if (!hasStopped(days, input, judged)) return null;
  const now = speedEstimate(
    beliefFrom(
      input.marking,
      days.flatMap(({ tallies }) => tallies),
    ),
    input.prior,
    input.day,
  );
  if (now.bpm >= input.rule.target) return null;
  const wall = namedByFalls(days, input) ?? namedByEstimate(now, input);
  return isHeld(wall, input, judged) ? null : wall;
}
