/** What the day holds and what of it was done, as the screen needs it. */
import { type DayEntry } from '../../diary/entry.ts';
import type { Seconds } from '../../common/units.ts';
import { type PlayedBefore, blockKey } from './played-before.ts';
import { type WeekLoad, weekLoad } from './week-load.ts';
import { type Plan, type PlanItem, isRest, workMinutes, totalMinutes } from './plan-items.ts';

import type { Block, Minutes, Part, Routine } from '../routine/routine.ts';

type BlockState = 'done' | 'begun' | 'open' | 'skipped' | 'left out';

interface DayBlock {
  readonly id: string;
  readonly title: string;
  readonly kind: Block['kind'];
  readonly state: BlockState;
  /** Minutes planned now; those of the file where nothing is planned. */
  readonly minutes: Minutes;
  readonly played: Seconds;
  /** One line: why it is in, why it is not, or that it is done. */
  readonly reason: string;
}

interface DayPart {
  readonly id: string;
  readonly title: string;
  /** Minutes planned now. */
  readonly minutes: Minutes;
  /** 'done' when nothing of it is open today. */
  readonly state: 'done' | 'begun' | 'open';
  readonly blocks: readonly DayBlock[];
}

export interface DayOverview {
  readonly day: string;
  readonly title: string;
  readonly instrument: string;
  readonly parts: readonly DayPart[];
  /** What to get on the stand before starting. */
  readonly materials: readonly string[];
  readonly available: Minutes;
  /** Of it, work and rests together. */
  readonly planned: Minutes;
  readonly doneToday: Minutes;
  readonly load: WeekLoad;
  /** The plan in words. */
  readonly sentences: readonly string[];
}

function stateOf(items: readonly PlanItem[], event: string | undefined, played: Seconds): BlockState {
  if (event === 'done') return 'done';
  if (event === 'skipped') return 'skipped';
  if (items.length === 0) return played > 0 ? 'begun' : 'left out';
  return played > 0 ? 'begun' : 'open';
}

function dayBlock(routine: Routine, part: Part, block: Block, plan: Plan, before: PlayedBefore): DayBlock {
  const today = before.today.get(blockKey(routine.id, part.id, block.id));
  const items = plan.items.filter((item) => item.part === part.id && item.block === block.id);
  const left = plan.leftOut.find((one) => one.part === part.id && one.block === block.id);
  const played = today?.played ?? 0;
  return {
    id: block.id,
    title: items[0]?.title ?? block.title,
    kind: items[0]?.kind ?? block.kind,
    state: stateOf(items, today?.event, played),
    minutes: items.length > 0 ? totalMinutes(items) : block.minutes,
    played,
    reason: items[0]?.reason ?? left?.reason ?? '',
  };
}

const isOver = ({ state }: DayBlock): boolean => state === 'done' || state === 'skipped';

function partState(blocks: readonly DayBlock[]): DayPart['state'] {
  if (blocks.every(isOver)) return 'done';
  return blocks.some(({ state, played }) => played > 0 || state === 'done') ? 'begun' : 'open';
}

function dayPart(routine: Routine, part: Part, plan: Plan, before: PlayedBefore): DayPart {
  const blocks = part.blocks
    .filter(({ content }) => content.is !== 'rest')
    .map((block) => dayBlock(routine, part, block, plan, before));
  const minutes = totalMinutes(plan.items.filter((item) => item.part === part.id && !isRest(item)));
  return { id: part.id, title: part.title, minutes, state: partState(blocks), blocks };
}

/** The day by parts, with the plan that was fitted to it. */
export function dayOverview(
  routine: Routine,
  plan: Plan,
  before: PlayedBefore,
  records: readonly DayEntry[],
): DayOverview {
  const played = [...before.today]
    .filter(([key]) => key.startsWith(`${routine.id}/`))
    .reduce((sum, [, block]) => sum + block.played, 0);
  return {
    day: before.day,
    title: routine.title,
    instrument: routine.instrument,
    parts: routine.parts.map((part) => dayPart(routine, part, plan, before)),
    materials: plan.materials,
    available: plan.minutes,
    planned: totalMinutes(plan.items),
    doneToday: played / 60,
    load: weekLoad(before.day, records, workMinutes(plan.items)),
    sentences: plan.sentences,
  };
}
