/** What there is to say about ease: a question after a block, an offer after tense marks, a rest that is due, a cue. */
import type { TensionLevel } from '../../diary/entry.ts';
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import type { Seconds } from '../../common/units.ts';
import { restDue } from '../../plan/ease/rest-due.ts';
import { type RunItem } from '../../plan/run/run-items.ts';
import { isRest } from '../../plan/today/plan-items.ts';
import { type Run, current } from '../../plan/run/running-routine.ts';
import { tensionOffer } from '../../plan/ease/tension-offer.ts';
import { type Stand, practiceOf } from '../stand.ts';
import { itemNow, recordsNow } from './sitting.ts';

/** The sitting's readings, oldest first. */
const readings = (stand: Stand): readonly TensionLevel[] =>
  recordsNow(stand).flatMap((record) => (record.kind === 'tension' ? [record.level] : []));

/** The marks of what is on the stand, in all its keys: what was tense before it is over. */
function marksOfExercise(stand: Stand): readonly Mark[] {
  const exercise = practiceOf(stand)?.line.exercise;
  return stand.marks.flatMap((entry) => (entry.exercise === exercise ? [entry.mark] : []));
}

/** Something easier, when readings or tense marks ask for it; nothing once a rest is being taken. */
function offerNow(stand: Stand): string | null {
  const item = itemNow(stand);
  if (item && isRest(item)) return null;
  return tensionOffer(readings(stand), marksOfExercise(stand));
}

const sum = (items: readonly RunItem[]): Seconds => items.reduce((total, { played }) => total + played, 0);

/** What was played since the last rest of the sitting. */
function sinceRest({ items, at }: Run): readonly RunItem[] {
  const before = items.slice(0, at + 1);
  const rest = before.findLastIndex((item) => isRest(item) && item.played > 0);
  return before.slice(rest + 1).filter((item) => !isRest(item));
}

/** A sentence when a rest is due, else null. Body work is no playing. */
function restNow(stand: Stand): string | null {
  const { sitting } = stand;
  if (!sitting) return restDue(practiceOf(stand)?.played ?? 0, 0);
  const item = current(sitting.run);
  if (!item || isRest(item)) return null;
  const played = sinceRest(sitting.run).filter(({ kind }) => kind !== 'body');
  return restDue(sum(played), sum(played.filter(({ highLoad }) => highLoad)));
}

/** The one thing to say now about ease, the most pressing first; null when there is nothing. */
export const easeNow = (stand: Stand): string | null => offerNow(stand) ?? restNow(stand);
