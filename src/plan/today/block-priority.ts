/** How much a block counts today, and why, in one line. */
import type { Chance } from '../../common/chance.ts';
import { type Due, dueAfter, dueInWords, waitedSince } from './days-due.ts';
import { type PlayedBefore, blockKey } from './played-before.ts';
import { type Block, type Minutes, type Part, type Routine, exerciseOf } from '../routine/routine.ts';
import { type Chosen, drawnFromPool, exerciseDay } from './pool-draw.ts';

/** A block that may come into today's plan. */
export interface Candidate {
  readonly part: Part;
  readonly block: Block;
  /** What will be played: the exercise, or what was drawn from the pool; null without one. */
  readonly exercise: string | null;
  readonly title: string;
  readonly kind: Block['kind'];
  /** Minutes still to be played today, and what they may be cut down to. */
  readonly full: Minutes;
  readonly least: Minutes;
  /** What each of its minutes counts. */
  readonly priority: number;
  readonly reason: string;
  /** What its pool would give next, where another block of the plan plays the same exercise; empty without a pool. */
  readonly instead: readonly OtherOfPool[];
}

/** Another exercise of a block's pool, as the plan would show it. */
interface OtherOfPool {
  readonly exercise: string;
  readonly title: string;
  readonly kind: Block['kind'];
  readonly reason: string;
}

/** A block that is no candidate today. */
export interface BarredBlock {
  readonly part: Part;
  readonly block: Block;
  readonly reason: string;
}

/** Fixed blocks, and those whose day has come, count so many times. */
const MUST = 10;
const REST_PRIORITY = 0.1;
/** Weakness of what has no marks yet. */
const UNKNOWN_WEAK = 0.3;

/** The latest of the block's own day and its exercise's, unless other blocks play that exercise too. */
function lastDayOf(routine: Routine, part: Part, block: Block, before: PlayedBefore): string | null {
  const own = before.blockDay.get(blockKey(routine.id, part.id, block.id)) ?? null;
  if (block.content.is !== 'exercise') return own;
  const { exercise } = block.content;
  const sharing = routine.parts
    .flatMap((one) => one.blocks)
    .filter(({ content }) => content.is === 'exercise' && content.exercise === exercise);
  const played = exerciseDay(before, exercise);
  if (sharing.length > 1 || played === null) return own;
  return own !== null && own > played ? own : played;
}

/** Half what was not clean lately, half what is missing to the target; 0 strong, 1 weak. */
function weaknessOf(routine: Routine, exercise: string | null, before: PlayedBefore): number {
  const form = exercise === null ? undefined : before.form.get(exercise);
  const target = exercise === null ? undefined : exerciseOf(routine, exercise)?.ladder.target;
  if (form === undefined || form.clean === null || target === undefined) return UNKNOWN_WEAK;
  const missing = form.best === null ? 1 : Math.max(0, 1 - form.best / target);
  return (1 - form.clean + missing) / 2;
}

function saidWeak(before: PlayedBefore, exercise: string | null): string {
  const clean = exercise === null ? null : (before.form.get(exercise)?.clean ?? null);
  return clean !== null && clean < 0.7 ? `, ${Math.round(clean * 100)} % clean lately` : '';
}

const saidWant = (block: Block): string =>
  block.want >= 4 ? ', you want it often' : block.want <= 2 ? ', you want it seldom' : '';

const clock = (minutes: Minutes): string =>
  `${Math.floor(minutes)}:${String(Math.round((minutes % 1) * 60)).padStart(2, '0')}`;

function reasonOf(block: Block, due: Due, before: PlayedBefore, exercise: string | null, playedToday: Minutes): string {
  if (playedToday > 0) return `begun today, ${clock(playedToday)} played`;
  if (block.content.is === 'rest') return 'rest';
  const must = block.warmUp ? 'warm-up, always first' : block.always ? 'every day' : dueInWords(due);
  return must + saidWeak(before, exercise) + saidWant(block);
}

/** What is open of a block today; a string says why nothing is. */
function openOf(
  block: Block,
  before: PlayedBefore,
  key: string,
): { full: Minutes; least: Minutes; played: Minutes } | string {
  const today = before.today.get(key);
  if (today === undefined) return { full: block.minutes, least: block.least, played: 0 };
  if (today.event === 'done') return 'done today';
  if (today.event === 'skipped') return 'skipped today';
  const played = today.played / 60;
  const full = Math.max(today.length / 60, block.minutes) - played;
  if (full < 0.5) return 'done today';
  return { full, least: Math.min(block.least, full), played };
}

function choiceFor(
  routine: Routine,
  part: Part,
  block: Block,
  before: PlayedBefore,
  taken: Map<string, Set<string>>,
  chance: Chance,
): Chosen | null {
  const { content } = block;
  const begun = before.today.get(blockKey(routine.id, part.id, block.id))?.exercise ?? null;
  if (content.is === 'pool' && begun === null) {
    const pool = routine.pools.find(({ id }) => id === content.pool);
    const set = taken.get(content.pool) ?? new Set<string>();
    taken.set(content.pool, set);
    return pool === undefined ? null : drawnFromPool(pool, before, set, chance);
  }
  const exercise = content.is === 'exercise' ? content.exercise : begun;
  // Played today outside this block: nothing is due, but it may come in when time is left.
  return { exercise, ...dueAfter(waitedSince(before, lastDayOf(routine, part, block, before)), block.everyDays) };
}

function priorityOf(routine: Routine, block: Block, chosen: Chosen, before: PlayedBefore): number {
  if (block.content.is === 'rest') return REST_PRIORITY;
  const must = block.always || chosen.presses ? MUST : 1;
  const due = Math.max(chosen.due, 0.1);
  return must * due * (1 + weaknessOf(routine, chosen.exercise, before)) * (block.want / 3);
}

function insteadOf(
  routine: Routine,
  block: Block,
  { others = [] }: Chosen,
  before: PlayedBefore,
): readonly OtherOfPool[] {
  return others.flatMap((other) => {
    const exercise = exerciseOf(routine, other.exercise);
    if (exercise === null) return [];
    const { id, title, kind } = exercise;
    return [{ exercise: id, title, kind, reason: reasonOf(block, other, before, id, 0) }];
  });
}

/**
 * Every block of the given parts: a candidate with its priority and the reason, or why it is none today.
 * Draws from pools and ties are settled by `chance`.
 */
export function blockPriorities(
  routine: Routine,
  parts: readonly Part[],
  before: PlayedBefore,
  chance: Chance,
): readonly (Candidate | BarredBlock)[] {
  const taken = new Map<string, Set<string>>();
  return parts.flatMap((part) =>
    part.blocks.map((block) => {
      const open = openOf(block, before, blockKey(routine.id, part.id, block.id));
      if (typeof open === 'string') return { part, block, reason: open };
      const chosen = choiceFor(routine, part, block, before, taken, chance);
      if (chosen === null) return { part, block, reason: 'everything in its pool was played today' };
      const exercise = chosen.exercise === null ? null : exerciseOf(routine, chosen.exercise);
      if (exercise?.retired) return { part, block, reason: 'retired' };
      return {
        part,
        block,
        exercise: exercise?.id ?? chosen.exercise,
        title: block.content.is === 'pool' && exercise !== null ? exercise.title : block.title,
        kind: block.content.is === 'pool' && exercise !== null ? exercise.kind : block.kind,
        full: open.full,
        least: open.least,
        priority: priorityOf(routine, block, chosen, before) * (1 + 1e-6 * chance()),
        reason: reasonOf(block, chosen, before, chosen.exercise, open.played),
        instead: insteadOf(routine, block, chosen, before),
      };
    }),
  );
}

export const isCandidate = (one: Candidate | BarredBlock): one is Candidate => 'priority' in one;
