/** Today's plan: what is played, in order and for how long. */
import { BREAK } from '../../diary/entry.ts';
import type { Kind } from '../routine/exercise.ts';

import type { Candidate } from './block-priority.ts';
import { type Block, type Minutes, type Part, type Routine, exerciseOf } from '../routine/routine.ts';

export interface PlanItem {
  readonly part: string;
  /** The block's id, or BREAK. */
  readonly block: string;
  readonly title: string;
  readonly kind: Kind | 'rest';
  readonly minutes: Minutes;
  /** What will be played, drawn if it comes from a pool; null without one. */
  readonly exercise: string | null;
  /** Which of its turns this is, when blocks are played in turns. */
  readonly turn: { readonly n: number; readonly of: number } | null;
  /** One line: why it is here. */
  readonly reason: string;
  readonly warmUp: boolean;
  readonly highLoad: boolean;
  readonly material: string | null;
  readonly cues: readonly string[];
  readonly atEnd: Block['atEnd'];
  readonly breaths: number | null;
  /** Only these of the exercise's keys and articulations; null for all of them. */
  readonly keys: Block['keys'];
  readonly articulations: Block['articulations'];
  readonly place?: Block['place'];
  /** What the block says of its drone. */
  readonly drone?: Block['drone'];
}

export interface LeftOut {
  readonly part: string;
  readonly block: string;
  readonly title: string;
  readonly reason: string;
}

export interface Plan {
  readonly routine: string;
  /** The minutes that were asked for. */
  readonly minutes: Minutes;
  readonly order: 'blocked' | 'interleaved';
  readonly items: readonly PlanItem[];
  readonly leftOut: readonly LeftOut[];
  /** What to get on the stand before starting, each once. */
  readonly materials: readonly string[];
  /** The plan explained, one sentence each. */
  readonly sentences: readonly string[];
}

export const isRest = ({ kind }: Pick<PlanItem, 'kind'>): boolean => kind === 'rest';

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

export const totalMinutes = (items: readonly PlanItem[]): Minutes => sum(items.map(({ minutes }) => minutes));

export const workMinutes = (items: readonly PlanItem[]): Minutes => totalMinutes(items.filter((item) => !isRest(item)));

/** What an item says of its block and of the exercise that is played in it. */
export function blockDetails(
  routine: Routine,
  part: Part,
  block: Block,
  exercise: string | null,
): Omit<PlanItem, 'minutes' | 'turn' | 'reason'> {
  const played = exercise === null ? null : exerciseOf(routine, exercise);
  const isDrawn = block.content.is === 'pool';
  return {
    part: part.id,
    block: block.id,
    title: isDrawn ? (played?.title ?? block.title) : block.title,
    kind: isDrawn ? (played?.kind ?? block.kind) : block.kind,
    exercise,
    warmUp: block.warmUp,
    highLoad: block.highLoad,
    material: block.material ?? played?.material ?? null,
    cues: [...block.cues, ...(played?.cues ?? [])],
    atEnd: block.atEnd,
    breaths: block.breaths ?? played?.breaths ?? null,
    keys: block.keys,
    articulations: block.articulations,
    ...(block.place === undefined ? {} : { place: block.place }),
    ...(block.drone === undefined ? {} : { drone: block.drone }),
  };
}

export const breakItem = (part: Part, minutes: Minutes): PlanItem => ({
  part: part.id,
  block: BREAK,
  title: 'Rest',
  kind: 'rest',
  minutes,
  exercise: null,
  turn: null,
  reason: 'rest, so that it stays easy',
  warmUp: false,
  highLoad: false,
  material: null,
  cues: [],
  atEnd: 'wait',
  breaths: null,
  keys: null,
  articulations: null,
});

/** A block as it stands in the plan, for so many minutes. */
export const plannedBlock = (
  routine: Routine,
  { part, block, exercise, reason }: Pick<Candidate, 'part' | 'block' | 'exercise' | 'reason'>,
  minutes: Minutes,
): PlanItem => ({ ...blockDetails(routine, part, block, exercise), minutes, turn: null, reason });
