/** Fits a routine to the minutes there are and to what was done of it already. */
import { seeded } from '../../common/chance.ts';
import type { Block, Minutes, Part, Routine } from '../routine/routine.ts';
import { type Candidate, blockPriorities, isCandidate } from './block-priority.ts';
import { interleaved } from './blocks-in-turns.ts';
import { allLeftOut } from './left-out.ts';
import { type Plan, type PlanItem, breakItem, plannedBlock } from './plan-items.ts';
import { type BlockOption, type ChosenBlock, searchPlan } from './plan-search.ts';
import { planSentences } from './plan-sentences.ts';
import { type PlayedBefore, blockKey } from './played-before.ts';

/** What a plan is made for. */
export interface PlanAsked {
  readonly minutes: Minutes;
  readonly before: PlayedBefore;
  /** Settles draws and ties; the same seed and day give the same plan. */
  readonly seed: number;
  /** The player's choice; the routine's own when absent. */
  readonly order?: Plan['order'];
  /** Ids of the parts that may come in; all when absent. */
  readonly parts?: readonly string[];
}

/** A plan is for one day. */
export const LEAST_MINUTES: Minutes = 1;
export const MOST_MINUTES: Minutes = 600;

/** A sentence when the minutes cannot be fitted, else null. */
export const wrongMinutes = (minutes: number): string | null =>
  minutes >= LEAST_MINUTES && minutes <= MOST_MINUTES
    ? null
    : `${minutes} minutes cannot be planned; write a number from ${LEAST_MINUTES} to ${MOST_MINUTES}.`;

const optionOf = ({ block, kind, full, least, priority }: Candidate): BlockOption => ({
  kind,
  full,
  least,
  priority,
  warmUp: block.warmUp,
  highLoad: block.highLoad,
  rests: block.content.is === 'rest',
  silent: kind === 'body',
});

function itemsOf(
  routine: Routine,
  candidates: readonly Candidate[],
  chosen: readonly ChosenBlock[],
): readonly PlanItem[] {
  return chosen.flatMap(({ index, minutes, rested }) => {
    const candidate = candidates[index];
    if (candidate === undefined) return [];
    const item = plannedBlock(routine, candidate, minutes);
    return rested && routine.breaks !== null ? [breakItem(candidate.part, routine.breaks.minutes), item] : [item];
  });
}

/**
 * Where two chosen blocks would play the same exercise and one has it from a pool, that one plays the next of its
 * pool that no block plays; of the same kind, so that the limits still hold.
 */
function withoutTwice(candidates: readonly Candidate[], chosen: readonly ChosenBlock[]): readonly Candidate[] {
  const isChosen = new Set(chosen.map(({ index }) => index));
  const played = candidates.flatMap(({ exercise }, i) => (isChosen.has(i) && exercise !== null ? [exercise] : []));
  return candidates.map((one, i) => {
    if (!isChosen.has(i) || played.filter((exercise) => exercise === one.exercise).length < 2) return one;
    const other = one.instead.find(({ exercise, kind }) => kind === one.kind && !played.includes(exercise));
    if (other === undefined) return one;
    played.splice(played.indexOf(one.exercise ?? ''), 1, other.exercise);
    return { ...one, ...other };
  });
}

/** Warm-ups before everything else, the file's order otherwise. */
const inPlanOrder = (candidates: readonly Candidate[]): readonly Candidate[] => [
  ...candidates.filter(({ block }) => block.warmUp),
  ...candidates.filter(({ block }) => !block.warmUp),
];

const playsToday = (routine: Routine, block: Block, part: Part, before: PlayedBefore): boolean =>
  (before.today.get(blockKey(routine.id, part.id, block.id))?.played ?? 0) > 0;

/** A warm-up has to come first unless one was played today or the chosen parts hold none. */
function needsWarmUp(routine: Routine, candidates: readonly Candidate[], before: PlayedBefore): boolean {
  const isWarm = routine.parts.some((part) =>
    part.blocks.some((block) => block.warmUp && playsToday(routine, block, part, before)),
  );
  return !isWarm && candidates.some(({ block }) => block.warmUp);
}

/** With less time than the shortest warm-up takes, the shortest is cut to what there is. */
function cutToTime(candidates: readonly Candidate[], minutes: Minutes, needsOne: boolean): readonly Candidate[] {
  const warmUps = candidates.filter(({ block }) => block.warmUp);
  const shortest = warmUps.toSorted((a, b) => a.least - b.least)[0];
  if (!needsOne || shortest === undefined || shortest.least <= minutes) return candidates;
  return candidates.map((one) => (one === shortest ? { ...one, least: minutes } : one));
}

/**
 * The plan with the highest value that was found; the search is exact on small routines and follows the best
 * beginnings on large ones. Minutes have to be right by `wrongMinutes`.
 */
export function todaysPlan(routine: Routine, ask: PlanAsked): Plan {
  const parts = routine.parts.filter(({ id }) => ask.parts === undefined || ask.parts.includes(id));
  const all = blockPriorities(routine, parts, ask.before, seeded(ask.seed));
  const able = inPlanOrder(all.filter(isCandidate));
  const warmUpFirst = needsWarmUp(routine, able, ask.before);
  const cut = cutToTime(able, ask.minutes, warmUpFirst);
  const within = { minutes: ask.minutes, limits: routine.limits, breaks: routine.breaks, warmUpFirst };
  const chosen = searchPlan(cut.map(optionOf), within);
  const candidates = withoutTwice(cut, chosen);
  const blocked = itemsOf(routine, candidates, chosen);
  const order = ask.order ?? routine.order;
  const items = order === 'interleaved' ? interleaved(blocked, routine.limits) : blocked;
  const isTaken = new Set(chosen.map(({ index }) => candidates[index]?.block.id));
  const others = [...candidates, ...all.filter((one) => !isCandidate(one))].filter(
    ({ block }) => !isTaken.has(block.id),
  );
  const plan = { routine: routine.id, minutes: ask.minutes, order, items };
  return {
    ...plan,
    leftOut: allLeftOut(routine, others, blocked, ask.minutes),
    materials: [...new Set(items.flatMap(({ material }) => material ?? []))],
    sentences: planSentences(plan, parts.flatMap(({ blocks }) => blocks).length, candidates, chosen),
  };
}
