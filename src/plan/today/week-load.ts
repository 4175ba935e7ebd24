/** The week's load, and a plain warning on a jump. */
import { BREAK, type DayEntry } from '../../diary/entry.ts';
import { CAUTION } from '../ease/caution.ts';
import { wholeMinutes } from '../../common/time-words.ts';
import { dayPlus, daysBetween } from '../../common/days.ts';

import type { Minutes } from '../routine/routine.ts';

export interface WeekLoad {
  /** Minutes of the last seven days, today included. */
  readonly minutes: Minutes;
  /** Mean of the four weeks before; null when nothing was played in them. */
  readonly usual: Minutes | null;
  /** One line for the screen. */
  readonly line: string;
  /** A plain warning, or null. */
  readonly warning: string | null;
}

/** So many days without playing are a lay-off. */
const LAY_OFF = 7;
/** The sources ask for a gradual increase and name no number; these are this program's own. */
const JUMP = 1.5;
const AFTER_LAY_OFF = 0.5;

/** Minutes of work in routines by day. Of a block's records on one day the last counts; rests do not. */
export function minutesByDay(records: readonly DayEntry[]): ReadonlyMap<string, Minutes> {
  const newest = new Map<string, { readonly day: string; readonly played: number }>();
  for (const record of records) {
    if (record.kind !== 'block' || record.block === BREAK) continue;
    newest.set(`${record.day}/${record.routine}/${record.part}/${record.block}`, record);
  }
  const minutes = new Map<string, Minutes>();
  for (const { day, played } of newest.values()) minutes.set(day, (minutes.get(day) ?? 0) + played / 60);
  return minutes;
}

const sumBetween = (minutes: ReadonlyMap<string, Minutes>, from: string, to: string): Minutes =>
  [...minutes].reduce((sum, [day, played]) => (day >= from && day <= to ? sum + played : sum), 0);

interface LayOff {
  readonly days: number;
  /** Mean of the days played in the four weeks before it. */
  readonly before: Minutes;
}

/** A lay-off that ended within the last week, or ends today. */
function layOffBefore(day: string, minutes: ReadonlyMap<string, Minutes>): LayOff | null {
  const played = [...minutes].filter(([one, n]) => one <= day && n > 0).map(([one]) => one);
  const days = [...new Set([...played, day])].sort();
  for (let i = days.length - 1; i > 0; i -= 1) {
    const [back, last] = [days[i] as string, days[i - 1] as string];
    if (daysBetween(back, day) >= 7) return null;
    const gap = daysBetween(last, back) - 1;
    if (gap >= LAY_OFF) return { days: gap, before: meanOfDays(minutes, dayPlus(last, -27), last) };
  }
  return null;
}

function meanOfDays(minutes: ReadonlyMap<string, Minutes>, from: string, to: string): Minutes {
  const days = [...minutes].filter(([day, n]) => day >= from && day <= to && n > 0);
  return days.length === 0 ? 0 : days.reduce((sum, [, n]) => sum + n, 0) / days.length;
}

const round = (minutes: Minutes): number => Math.round(minutes);

function warningOf(week: Minutes, usual: Minutes | null, today: Minutes, layOff: LayOff | null): string | null {
  if (layOff !== null && layOff.before > 0 && today > AFTER_LAY_OFF * layOff.before) {
    return (
      `${layOff.days} days without playing, and ${wholeMinutes(round(today))} today after a usual ` +
      `${round(layOff.before)}: come back gradually, never straight into heavy playing. ${CAUTION}`
    );
  }
  if (usual !== null && week > JUMP * usual && layOff === null) {
    return (
      `${wholeMinutes(round(week))} this week are a jump from your usual ${round(usual)}: increase ` +
      `gradually. ${CAUTION}`
    );
  }
  return null;
}

/** The load with what is planned for today on top of what was played of it. */
export function weekLoad(day: string, records: readonly DayEntry[], planned: Minutes): WeekLoad {
  const played = minutesByDay(records);
  const minutes = new Map(played).set(day, (played.get(day) ?? 0) + planned);
  const week = sumBetween(minutes, dayPlus(day, -6), day);
  const before = sumBetween(minutes, dayPlus(day, -34), dayPlus(day, -7));
  const usual = before === 0 ? null : before / 4;
  const compared = usual === null ? '' : `, usually ${round(usual)}`;
  return {
    minutes: week,
    usual,
    line: `${wholeMinutes(round(week))} in seven days${compared}`,
    warning: warningOf(week, usual, minutes.get(day) ?? 0, layOffBefore(day, minutes)),
  };
}
