/** What to work on, in three sentences: what is stuck, what waits, what grows. */
import { withSigns } from '../music/pitch/note-names.ts';
import { bpmText } from '../music/time/tempo-text.ts';
import type { Line } from '../ladder/line.ts';
import { speedOverWeeks, weeksFlat } from './speed-weeks.ts';
import { type Lines, type Standing, WEEKS_BACK, isWaiting } from './standing.ts';

export type Matter = 'Stuck' | 'Waits' | 'Grows';

export interface WeeksSentence {
  readonly matter: Matter;
  readonly sentence: string;
  /** The line that it is about; null where there is none. */
  readonly standing: Standing | null;
}

/** 'Five-note study, B♭ double' */
export const nameOf = ({ title, line }: { readonly title: string; readonly line: Line }): string =>
  `${title}, ${withSigns(line.key)} ${line.articulation}`;

const HALF_YEAR = 26;

const whole = (bpm: number): string => `${Math.round(bpm)}`;

/** 'above 92', '66', 'still not known': the number that may be said. */
export function saidOf({ now: { said } }: Standing): string {
  if (said.known === 'too little') return 'still not known';
  return said.known === 'near' ? whole(said.bpm) : `${said.known} ${whole(said.bpm)}`;
}

const counted = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;

function stuck(known: Lines, all: readonly Standing[]): WeeksSentence {
  const walls = all.filter(({ wall }) => wall !== null);
  const first = walls[0];
  if (!first?.wall) return { matter: 'Stuck', sentence: 'nothing; no line stands before a wall.', standing: null };
  const weeks = weeksFlat(speedOverWeeks(known, first, HALF_YEAR));
  const flat = weeks >= 2 ? ` for ${weeks >= HALF_YEAR ? 'half a year' : `${weeks} weeks`}` : '';
  const more = walls.length > 1 ? `; ${walls.length - 1} more` : '';
  const sentence = `${nameOf(first)}: ${saidOf(first)}${flat}, the wall is ${bpmText(first.wall.bpm)}${more}.`;
  return { matter: 'Stuck', sentence, standing: first };
}

/** The longest away first; of those the one that most was put into. */
const byWait = (a: Standing, b: Standing): number =>
  Math.floor(b.daysAgo / 7) - Math.floor(a.daysAgo / 7) || b.marks - a.marks;

function waits(all: readonly Standing[]): WeeksSentence {
  const waiting = all.filter(isWaiting).toSorted(byWait);
  const [first] = waiting;
  if (!first) return { matter: 'Waits', sentence: 'nothing; every line was played within four weeks.', standing: null };
  const others = waiting.length - 1;
  const more = others === 0 ? '' : `; ${others} more of ${counted(all.length, 'line')} wait`;
  const sentence = `${nameOf(first)}: not for ${Math.floor(first.daysAgo / 7)} weeks${more}.`;
  return { matter: 'Waits', sentence, standing: first };
}

/** The gain is more than the doubt: today's interval lies above what was known eight weeks ago. */
const hasGrown = ({ gain, now, before }: Standing): boolean =>
  gain !== null && before !== null && gain > 0 && now.low > before.bpm;

const growth = ({ gain, now }: Standing): number => (gain ?? 0) / now.bpm;

function grows(all: readonly Standing[]): WeeksSentence {
  const growing = all.filter((one) => hasGrown(one) && !one.wall && !isWaiting(one));
  const [first] = growing.toSorted((a, b) => growth(b) - growth(a));
  if (!first?.before)
    return { matter: 'Grows', sentence: 'nothing that is sure yet; a gain shows after some weeks.', standing: null };
  const more = growing.length > 1 ? `; ${growing.length - 1} more` : '';
  const sentence =
    `${nameOf(first)}: ${whole(first.before.bpm)} to ${whole(first.now.bpm)} ` + `in ${WEEKS_BACK} weeks${more}.`;
  return { matter: 'Grows', sentence, standing: first };
}

/** In the order in which they are read. */
export const weeksSentences = (known: Lines, all: readonly Standing[]): readonly WeeksSentence[] => [
  stuck(known, all),
  waits(all),
  grows(all),
];
