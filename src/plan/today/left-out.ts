/** Why a block that could be played today does not come into the plan. */
import { wholeMinutes } from '../../common/time-words.ts';
import type { Minutes, Routine } from '../routine/routine.ts';
import { type BarredBlock, type Candidate, isCandidate } from './block-priority.ts';
import { keepsLimits } from './blocks-in-turns.ts';
import { type LeftOut, type PlanItem, isRest, plannedBlock, totalMinutes } from './plan-items.ts';

function whyLeftOut(routine: Routine, items: readonly PlanItem[], candidate: Candidate, minutes: Minutes): string {
  if (candidate.block.highLoad && candidate.least > routine.limits.highLoad) {
    return (
      `its ${wholeMinutes(candidate.least)} ${candidate.least === 1 ? 'is' : 'are'} more high load than ` +
      `the limit of ${routine.limits.highLoad}`
    );
  }
  if (totalMinutes(items) + candidate.least > minutes) return 'no time left';
  const item = plannedBlock(routine, candidate, candidate.least);
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

/** `items` are those of the plan in one go; the rests of the routine's own need no reason. */
export const allLeftOut = (
  routine: Routine,
  all: readonly (Candidate | BarredBlock)[],
  items: readonly PlanItem[],
  minutes: Minutes,
): readonly LeftOut[] => [
  ...all
    .filter(isCandidate)
    .filter(({ block }) => block.content.is !== 'rest')
    .map((one) => leftOutOf(one, whyLeftOut(routine, items, one, minutes))),
  ...all.flatMap((one) => (isCandidate(one) ? [] : [leftOutOf(one, one.reason)])),
];
