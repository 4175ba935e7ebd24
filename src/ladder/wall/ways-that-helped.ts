/** Which way round a wall helped on which line: told by the marks that came after it. */
import { type Line, lineName } from '../line.ts';
import { type DayNumber, dayNumber } from '../../common/days.ts';
import type { Bpm } from '../../common/units.ts';

import { type LineHistory, repetitions } from '../speed/line-history.ts';

import type { Way } from './ways-round.ts';

/** As the journal keeps it. */
export interface WayTried extends Line {
  readonly way: string;
  readonly wall: Bpm;
  readonly outcome: 'played' | 'left';
  readonly day: string;
}

/** `open`: too few marks at the wall since. */
type Help = 'helped' | 'did not' | 'open';

const WITHIN_DAYS = 14;
const ENOUGH = 4;

/** Whether the wall gave way: most of the marks there or above, on later days within two weeks, are clean. */
function helpOf({ wall, day, outcome }: WayTried, history: LineHistory): Help {
  if (outcome === 'left') return 'open';
  const since = dayNumber(day);
  const after = history.tallies.filter((tally) => {
    const days: DayNumber = dayNumber(tally.day) - since;
    return tally.bpm >= wall && days > 0 && days <= WITHIN_DAYS;
  });
  const all = after.reduce((sum, tally) => sum + repetitions(tally), 0);
  const clean = after.reduce((sum, tally) => sum + tally.clean, 0);
  if (all < ENOUGH) return 'open';
  return clean / all >= 2 / 3 ? 'helped' : 'did not';
}

const WORTH: Readonly<Record<Help, number>> = { helped: 2, open: -0.1, 'did not': -1 };

/** What a line's own experience counts for, what its exercise's other lines', and any other's. */
function closeness(a: Line, b: Line): number {
  if (lineName(a) === lineName(b)) return 1;
  return a.exercise === b.exercise ? 0.4 : 0.15;
}

export interface OfferedWay extends Way {
  /** Days on which it helped this very line, newest last. */
  readonly helpedOn: readonly string[];
  readonly tried: number;
}

/** The ways in the order in which to offer them: first what helped here, last what did not. */
export function waysToOffer(
  ways: readonly Way[],
  line: Line,
  tried: readonly WayTried[],
  histories: ReadonlyMap<string, LineHistory>,
): readonly OfferedWay[] {
  const judged = tried.flatMap((one) => {
    const history = histories.get(lineName(one));
    return history ? [{ ...one, help: helpOf(one, history), near: closeness(one, line) }] : [];
  });
  const worth = (way: Way): number =>
    judged.filter((one) => one.way === way.id).reduce((sum, one) => sum + WORTH[one.help] * one.near, 0);
  const own = (way: Way) => judged.filter((one) => one.way === way.id && one.near === 1);
  return [...ways]
    .sort((a, b) => worth(b) - worth(a))
    .map((way) => ({
      ...way,
      tried: own(way).length,
      helpedOn: own(way)
        .filter(({ help }) => help === 'helped')
        .map(({ day }) => day),
    }));
}
