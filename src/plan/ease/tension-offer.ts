/** What readings and marks propose: nothing is found out about a player, something easier is offered. */
import { type TensionLevel } from '../../diary/entry.ts';
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import { CAUTION } from './caution.ts';

const HIGH: TensionLevel = 3;
const HIGHEST: TensionLevel = 4;
const TENSE_SLOWER = 3;
const TENSE_REST = 6;

/** How many at the end of a list are alike. */
function runAtEnd<T>(all: readonly T[], is: (one: T) => boolean): number {
  const last = all.findLastIndex((one) => !is(one));
  return all.length - 1 - last;
}

/**
 * Readings and marks of this sitting, newest last. Two high readings in a row propose a rest, three or two of
 * the highest to stop for now; three tense repetitions in a row propose a slower tempo, six a rest. One sentence,
 * the most pressing; null when there is nothing to propose.
 * Common practice, no source.
 */
export function tensionOffer(readings: readonly TensionLevel[], marks: readonly Mark[]): string | null {
  const high = runAtEnd(readings, (level) => level >= HIGH);
  if (high >= 3 || runAtEnd(readings, (level) => level === HIGHEST) >= 2)
    return `Tension has stayed high: stop for now, and come back another time. ${CAUTION}`;
  if (high >= 2) return `Two high readings in a row: put the instrument down for a few minutes. ${CAUTION}`;
  const tense = runAtEnd(marks, (mark) => mark === 'tense');
  const inRow = `${tense} tense repetitions in a row`;
  if (tense >= TENSE_REST) return `${inRow}: a rest will do more than another one. ${CAUTION}`;
  return tense >= TENSE_SLOWER ? `${inRow}: take it slower, and let it be easy first.` : null;
}
