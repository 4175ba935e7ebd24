/** One line over time: what was known of its speed at the end of each week, a gap where it was not played. */
import { dateOf, dayNumber, mondayOf } from '../common/days.ts';
import { lineName } from '../ladder/line.ts';
import type { Tally } from '../ladder/speed/line-history.ts';
import { lastMondays } from './calendar-weeks.ts';
import { type Lines, type SpeedThen, type Standing, questionOf, speedOn } from './standing.ts';

export interface SpeedWeek {
  /** Its Monday, 'YYYY-MM-DD'. */
  readonly from: string;
  /** Null in a week in which it was not played. */
  readonly speed: SpeedThen | null;
}

/** The last weeks up to the one of today, the earliest first. */
export function speedOverWeeks(known: Lines, { line, exercise }: Standing, weeks: number): readonly SpeedWeek[] {
  const history = known.lines[lineName(line)];
  const today = dayNumber(known.today);
  const played = new Set((history?.tallies ?? []).map(({ day }) => mondayOf(day)));
  return lastMondays(known.today, weeks).map((monday) => {
    if (!history || !played.has(monday)) return { from: dateOf(monday), speed: null };
    const asked = questionOf(exercise, history, Math.min(monday + 6, today));
    return { from: dateOf(monday), speed: speedOn(known.knowledge, history, asked) };
  });
}

/** Within so much of today's tempo a week counts as flat: two rungs of 3 %. */
const FLAT = 0.06;

/** For how many weeks, gaps included, the line has stood about where it stands now. */
export function weeksFlat(weeks: readonly SpeedWeek[]): number {
  const now = weeks.findLast(({ speed }) => speed !== null)?.speed;
  if (!now) return 0;
  const moved = weeks.findLastIndex(({ speed }) => speed !== null && Math.abs(speed.bpm / now.bpm - 1) > FLAT);
  const first = weeks.findIndex(({ speed }, index) => index > moved && speed !== null);
  return weeks.length - first;
}

/** One sitting of a line: its day, and its marks at each tempo in the order in which they were first played. */
export interface LineSitting {
  readonly day: string;
  readonly tallies: readonly Tally[];
}

/** The last days on which the line was played, the newest first. */
export function lastSittings({ lines }: Lines, { line }: Standing, most: number): readonly LineSitting[] {
  const days = new Map<string, Tally[]>();
  for (const tally of lines[lineName(line)]?.tallies ?? [])
    days.set(tally.day, [...(days.get(tally.day) ?? []), tally]);
  return [...days]
    .map(([day, tallies]) => ({ day, tallies }))
    .toReversed()
    .slice(0, most);
}
