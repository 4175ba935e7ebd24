/** Two blocks in turns instead of one after the other. */
import type { Limits, Minutes } from '../routine/routine.ts';
import { type PlanItem, isRest } from './plan-items.ts';

/** Length of a turn in a study of ten clarinetists: C. Carter and J. Grahn, Frontiers in Psychology 7:1251 (2016). */
export const TURN: Minutes = 3;

/** What studies found, one sentence for each order; neither is promised to be better. */
export const ABOUT_ORDER = {
  blocked:
    'In one go: at once no worse in a study of 41 beginners, though slower when tested again; one of 19 pupils ' +
    'found no difference.',
  interleaved:
    'In turns: raters tended to prefer it (a small study of ten), 41 beginners were faster when tested again; ' +
    'one of 19 pupils found no difference.',
} as const;

const canTakeTurns = (item: PlanItem): boolean =>
  !isRest(item) && !item.warmUp && item.exercise !== null && item.breaths === null && item.minutes >= 2 * TURN;

/** Turns of three minutes; what is left over lengthens the last. */
function turnsOf(item: PlanItem): readonly PlanItem[] {
  const of = Math.floor(item.minutes / TURN);
  return Array.from({ length: of }, (_, i) => ({
    ...item,
    minutes: i === of - 1 ? item.minutes - TURN * (of - 1) : TURN,
    turn: { n: i + 1, of },
  }));
}

function alternated(a: PlanItem, b: PlanItem): readonly PlanItem[] {
  const [left, right] = [turnsOf(a), turnsOf(b)];
  return Array.from({ length: Math.max(left.length, right.length) }, (_, i) => [left[i], right[i]])
    .flat()
    .filter((item) => item !== undefined);
}

/** Whether no stretch holds more blocks of a kind, or more high-load minutes, than the limits allow. */
export function keepsLimits(items: readonly PlanItem[], limits: Limits): boolean {
  let inRow: Set<string> = new Set();
  let kind = '';
  let high = 0;
  for (const item of items) {
    high = item.highLoad ? high + item.minutes : 0;
    if (high > limits.highLoad + 1e-9) return false;
    if (isRest(item)) continue;
    inRow = item.kind === kind ? inRow.add(item.block) : new Set([item.block]);
    kind = item.kind;
    if (inRow.size > limits.sameKind) return false;
  }
  return true;
}

/** Neighbouring blocks in turns, two by two, wherever the limits still hold; the minutes stay the same. */
export function interleaved(items: readonly PlanItem[], limits: Limits): readonly PlanItem[] {
  let done: readonly PlanItem[] = [];
  for (let i = 0; i < items.length; i += 1) {
    const [a, b] = [items[i] as PlanItem, items[i + 1]];
    const inTurns = b !== undefined && canTakeTurns(a) && canTakeTurns(b) ? [...done, ...alternated(a, b)] : null;
    if (inTurns !== null && keepsLimits([...inTurns, ...items.slice(i + 2)], limits)) {
      done = inTurns;
      i += 1;
    } else {
      done = [...done, a];
    }
  }
  return done;
}
