/** Fits a routine to the minutes there are and to what was done of it already. */
import { wholeMinutes } from '../../common/time-words.ts';
import { seeded } from '../../common/chance.ts';
import type { Block, Minutes, Part, Routine } from '../routine/routine.ts';
import { ABOUT_ORDER, interleaved, keepsLimits } from './blocks-in-turns.ts';
import { type PlayedBefore, blockKey } from './played-before.ts';
import {
  type LeftOut,
  type Plan,
  type PlanItem,
  breakItem,
  blockDetails,
  isRest,
  workMinutes,
  totalMinutes,
} from './plan-items.ts';
import { type BlockOption, type ChosenBlock, searchPlan } from './plan-search.ts';
import { type BarredBlock, type Candidate, isCandidate, blockPriorities } from './block-priority.ts';

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

/** What the search maximises, in words. */
const OBJECTIVE =
  'Every block counts its minutes times how due, how weak and how wanted it is, the first minutes of a block most ' +
  '(half of its time keeps 59 % of its value); blocks for every day and those whose day has come count ten times. ' +
  'The warm-up comes first, and the limits for one kind in a row, for high load together and for playing ' +
  'without a rest hold.';

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

const itemOf = (routine: Routine, { part, block, exercise, reason }: Candidate, minutes: Minutes): PlanItem => ({
  ...blockDetails(routine, part, block, exercise),
  minutes,
  turn: null,
  reason,
});

function itemsOf(
  routine: Routine,
  candidates: readonly Candidate[],
  chosen: readonly ChosenBlock[],
): readonly PlanItem[] {
  return chosen.flatMap(({ index, minutes, rested }) => {
    const candidate = candidates[index];
    if (candidate === undefined) return [];
    const item = itemOf(routine, candidate, minutes);
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

function whyLeftOut(routine: Routine, items: readonly PlanItem[], candidate: Candidate, minutes: Minutes): string {
  if (candidate.block.highLoad && candidate.least > routine.limits.highLoad) {
    return (
      `its ${wholeMinutes(candidate.least)} ${candidate.least === 1 ? 'is' : 'are'} more high load than ` +
      `the limit of ${routine.limits.highLoad}`
    );
  }
  if (totalMinutes(items) + candidate.least > minutes) return 'no time left';
  const item = itemOf(routine, candidate, candidate.least);
  const place = placeOf(routine, items, candidate);
  const tried = [...items.slice(0, place), item, ...items.slice(place)];
  const { sameKind } = routine.limits;
  if (!keepsLimits(tried, { sameKind, highLoad: Infinity }))
    return `it would be more than ${sameKind} of its kind (${item.kind}) in a row`;
  if (!keepsLimits(tried, routine.limits))
    return `more than ${routine.limits.highLoad} high-load minutes would stand together`;
  return 'no time left for it and the rest that it needs';
}

/** Where a block would stand among the chosen ones. */
function placeOf(routine: Routine, items: readonly PlanItem[], { block }: Candidate): number {
  const order = routine.parts.flatMap((part) => part.blocks.map(({ id }) => id));
  const index = items.findIndex((item) => !isRest(item) && order.indexOf(item.block) > order.indexOf(block.id));
  return index < 0 ? items.length : index;
}

const leftOutOf = ({ part, block }: Candidate | BarredBlock, reason: string): LeftOut => ({
  part: part.id,
  block: block.id,
  title: block.title,
  reason,
});

const count = (n: number, word: string): string => (n === 1 ? `one ${word}` : `${n} ${word}s`);
const short = (minutes: Minutes): string => `${Math.round(minutes * 10) / 10}`;

/** 'Shortened to make room: Long tones (3 of 6), Thirds (4 of 8).' */
function shortened(candidates: readonly Candidate[], chosen: readonly ChosenBlock[]): readonly string[] {
  const cut = chosen.flatMap(({ index, minutes }) => {
    const candidate = candidates[index];
    return candidate === undefined || candidate.full - minutes < 0.5
      ? []
      : [`${candidate.title} (${short(minutes)} of ${short(candidate.full)})`];
  });
  return cut.length === 0 ? [] : [`Shortened to make room: ${cut.join(', ')}.`];
}

function sentencesOf(minutes: Minutes, items: readonly PlanItem[], blocks: number): readonly string[] {
  const rests = items.filter(isRest).length;
  const left = minutes - totalMinutes(items);
  const played = new Set(items.filter((item) => !isRest(item)).map(({ block }) => block)).size;
  const resting = rests === 0 ? '' : ` and ${count(rests, 'rest')}`;
  const over = left >= 1 ? `; ${wholeMinutes(left)} ${short(left) === '1' ? 'is' : 'are'} left over` : '';
  const work = `${wholeMinutes(workMinutes(items))} of work`;
  return [`${wholeMinutes(minutes)}: ${played} of ${count(blocks, 'block')}, ${work}${resting}${over}.`];
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
  const leftOut = [
    ...candidates
      .filter(({ block }) => !isTaken.has(block.id) && block.content.is !== 'rest')
      .map((one) => leftOutOf(one, whyLeftOut(routine, blocked, one, ask.minutes))),
    ...all.filter((one): one is BarredBlock => !isCandidate(one)).map((one) => leftOutOf(one, one.reason)),
  ];
  return {
    routine: routine.id,
    minutes: ask.minutes,
    order,
    items,
    leftOut,
    materials: [...new Set(items.flatMap(({ material }) => material ?? []))],
    sentences: [
      ...sentencesOf(ask.minutes, items, parts.flatMap(({ blocks }) => blocks).length),
      ...shortened(candidates, chosen),
      OBJECTIVE,
      ABOUT_ORDER[order],
    ],
  };
}
