/** What is left of a proposal after some of it was played: the proposal itself stays as it is. */
import { minutesAndSeconds } from '../../common/time-words.ts';
import type { Minutes } from '../routine/routine.ts';
import { type Plan, type PlanItem, isRest } from './plan-items.ts';
import { type PlayedBefore, blockKey } from './played-before.ts';

/** Less is over as far as the screen is concerned. */
const LEAST: Minutes = 0.5;

/** Played of a block since the proposal was made. */
const playedSince = (key: string, then: PlayedBefore, now: PlayedBefore): Minutes =>
  ((now.today.get(key)?.played ?? 0) - (then.today.get(key)?.played ?? 0)) / 60;

const isOver = (key: string, { today }: PlayedBefore): boolean =>
  ['done', 'skipped'].includes(today.get(key)?.event ?? '');

/** First turns are played first; what has begun is as much shorter. */
function itemsLeft(plan: Plan, then: PlayedBefore, now: PlayedBefore): readonly PlanItem[] {
  const played = new Map<string, Minutes>();
  return plan.items.flatMap((item) => {
    const key = blockKey(plan.routine, item.part, item.block);
    if (isRest(item)) return [item];
    if (isOver(key, now)) return [];
    const gone = Math.min(item.minutes, played.get(key) ?? playedSince(key, then, now));
    played.set(key, (played.get(key) ?? playedSince(key, then, now)) - gone);
    if (gone <= 0) return [item];
    const reason = `begun today, ${minutesAndSeconds(now.today.get(key)?.played ?? 0)} played`;
    return item.minutes - gone < LEAST ? [] : [{ ...item, minutes: item.minutes - gone, reason }];
  });
}

/** A rest stands between two stretches of work, and nowhere else. */
const withoutIdleRests = (items: readonly PlanItem[]): readonly PlanItem[] =>
  items.filter((item, i) => !isRest(item) || (items.slice(0, i).some((one) => !isRest(one)) && i < items.length - 1));

/**
 * The same blocks in the same order, without what is done; null where nothing of it is left. `then` is what had been
 * played when the proposal was made, or last looked at.
 */
export function planLeft(plan: Plan, then: PlayedBefore, now: PlayedBefore): Plan | null {
  const items = withoutIdleRests(itemsLeft(plan, then, now));
  return items.some((item) => !isRest(item)) ? { ...plan, items } : null;
}
