/** The week's load, and a plain warning on a jump. */
import { BREAK, type DayEntry } from '../../diary/entry.ts';
import { CAUTION } from '../ease/caution.ts';
import { wholeMinutes } from '../../common/time-words.ts';
import { dayPlus, daysBetween } from '../../common/days.ts';

import type { Minutes } from '../routine/routine.ts';

export interface WeekLoad {
  /** Minutes played in the last seven days, today included. */
  readonly minutes: Minutes;
  /** Minutes that today's plan still holds; they are not played yet and count in no sum. */
  readonly toCome: Minutes;
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

/** Of the days that were played on; there is one at least. */
function meanOfDays(minutes: ReadonlyMap<string, Minutes>, from: string, to: string): Minutes {
  const days = [...minutes].filter(([day, n]) => day >= from && day <= to && n > 0);
  return days.reduce((sum, [, n]) => sum + n, 0) / days.length;
}

const round = (minutes: Minutes): number => Math.round(minutes);

/** The minutes of a stretch: what was played of it, and what today's plan would add. */
interface Stretch {
  readonly played: Minutes;
  readonly toCome: Minutes;
}

/** What is too much, in words: what was played, or that with the plan; null if neither is. */
function tooMuch({ played, toCome }: Stretch, limit: Minutes, when: string): string | null {
  if (played > limit) return `${wholeMinutes(round(played))} ${when}`;
  return played + toCome > limit ? `${wholeMinutes(round(played + toCome))} ${when} with what is planned` : null;
}

function afterLayOff(today: Stretch, { days, before }: LayOff): string | null {
  const said = tooMuch(today, AFTER_LAY_OFF * before, 'today');
  if (said === null) return null;
  return (
    `${days} days without playing, and ${said} after a usual ${round(before)}: come back gradually, ` +
    `never straight into heavy playing. ${CAUTION}`
  );
}

function jump(week: Stretch, usual: Minutes): string | null {
  const said = tooMuch(week, JUMP * usual, 'this week');
  return said && `${said} are a jump from your usual ${round(usual)}: increase gradually. ${CAUTION}`;
}

/** '180 min this week with today (usually 150)'; what is planned counts only where 'with today' is said. */
function lineOf({ played, toCome }: Stretch, usual: Minutes | null): string {
  const compared = usual === null ? '' : ` (usually ${round(usual)})`;
  const planned = toCome === 0 ? '' : ' with today';
  return `${round(played + toCome)} min this week${planned}${compared}`;
}

/** The load of what was played; `toCome` are the minutes of work that today's plan still holds. */
export function weekLoad(day: string, records: readonly DayEntry[], toCome: Minutes): WeekLoad {
  const minutes = minutesByDay(records);
  const week: Stretch = { played: sumBetween(minutes, dayPlus(day, -6), day), toCome };
  const before = sumBetween(minutes, dayPlus(day, -34), dayPlus(day, -7));
  const usual = before === 0 ? null : before / 4;
  const layOff = layOffBefore(day, minutes);
  const today: Stretch = { played: minutes.get(day) ?? 0, toCome };
  return {
    minutes: week.played,
    toCome,
    usual,
    line: lineOf(week, usual),
    warning: layOff ? afterLayOff(today, layOff) : usual === null ? null : jump(week, usual),
  };
}
