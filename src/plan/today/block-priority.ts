/** What a block is worth today, and why, in one line. */
import type { Chance } from '../../common/chance.ts';
import { daysBetween } from '../../common/days.ts';
import { type Known, blockKey } from './played-before.ts';
import { type Block, type Minutes, type Part, type Pool, type Routine, exerciseOf } from '../routine/routine.ts';

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
  /** Worth of each of its minutes. */
  readonly worth: number;
  readonly reason: string;
  /** What its pool would give next, where another block of the plan plays the same exercise; empty without a pool. */
  readonly instead: readonly Instead[];
}

/** Another exercise of a block's pool, as the plan would show it. */
interface Instead {
  readonly exercise: string;
  readonly title: string;
  readonly kind: Block['kind'];
  readonly reason: string;
}

/** A block that is no candidate today. */
export interface Barred {
  readonly part: Part;
  readonly block: Block;
  readonly reason: string;
}

/** Fixed blocks, and those whose day has come, count so many times. */
const MUST = 10;
const REST_WORTH = 0.1;
const MOST_DUE = 3;
/** Weakness of what has no marks yet. */
const UNKNOWN_WEAK = 0.3;

/** How many days before its day a block already presses: a sitting may be cut off. */
const marginOf = (everyDays: number): number => (everyDays >= 7 ? 2 : everyDays >= 3 ? 1 : 0);

interface Due {
  readonly due: number;
  readonly presses: boolean;
  readonly said: string;
}

const days = (n: number): string => (n === 1 ? 'a day' : `${n} days`);
const since = (n: number): string =>
  n === 0 ? 'played today already' : n === 1 ? 'last played yesterday' : `last played ${n} days ago`;
const every = (n: number): string => (n === 1 ? 'every day' : `every ${days(n)}`);

/** Days that something has waited: since it was played, or since anything was first played. */
interface Waited {
  readonly ago: number;
  readonly isNew: boolean;
}

const waitedSince = (known: Known, day: string | null): Waited => ({
  ago: daysBetween(day ?? known.firstDay, known.day),
  isNew: day === null,
});

function dueAfter({ ago, isNew }: Waited, everyDays: number): Due {
  const presses = everyDays > 1 && ago >= everyDays - marginOf(everyDays);
  const due = Math.min(Math.max(ago / everyDays, isNew ? 1 : 0), MOST_DUE);
  if (isNew) return { due, presses, said: 'not played yet' };
  return {
    due,
    presses,
    said: everyDays === 1 ? `every day, ${since(ago)}` : `${since(ago)}, due ${every(everyDays)}`,
  };
}

const exerciseDay = (known: Known, id: string): string | null => known.going.get(id)?.lastDay || null;

/** How long each item that was not played today has waited, longest first. */
function waiting(
  pool: Pool,
  known: Known,
  taken: ReadonlySet<string>,
  chance: Chance,
): readonly (readonly [string, Waited])[] {
  return pool.items
    .filter((item) => !taken.has(item) && exerciseDay(known, item) !== known.day)
    .map((item) => [item, waitedSince(known, exerciseDay(known, item)), chance()] as const)
    .sort((a, b) => b[1].ago - a[1].ago || Number(b[1].isNew) - Number(a[1].isNew) || a[2] - b[2])
    .map(([item, waited]) => [item, waited] as const);
}

/**
 * How hard a pool presses: with i items due within d days, i/d of a draw is needed each day; the largest
 * such share counts, and from 1 on every day has to have its draw.
 */
function pressure(waits: readonly (readonly [string, Waited])[], everyDays: number): number {
  const left = (ago: number): number => Math.max(1, everyDays - ago - marginOf(everyDays) + 1);
  return Math.max(0, ...waits.map(([, { ago }], i) => (i + 1) / left(ago)));
}

interface Chosen extends Due {
  readonly exercise: string | null;
  /** The rest of a pool, longest waited first. */
  readonly others?: readonly (Due & { readonly exercise: string })[];
}

function drawn(pool: Pool, known: Known, taken: Set<string>, chance: Chance): Chosen | null {
  const waits = waiting(pool, known, taken, chance);
  const [first] = waits;
  if (first === undefined) return null;
  taken.add(first[0]);
  const pressing = pressure(waits, pool.everyDays);
  const [drew, ...others] = waits.map(([exercise, waited]) => ({ ...dueAfter(waited, pool.everyDays), exercise }));
  return {
    exercise: first[0],
    due: Math.min(0.5 + pressing, MOST_DUE),
    presses: pressing >= 1,
    said: drew?.said ?? '',
    others,
  };
}

/** The latest of the block's own day and its exercise's, unless other blocks play that exercise too. */
function lastDayOf(routine: Routine, part: Part, block: Block, known: Known): string | null {
  const own = known.blockDay.get(blockKey(routine.id, part.id, block.id)) ?? null;
  if (block.content.is !== 'exercise') return own;
  const { exercise } = block.content;
  const sharing = routine.parts
    .flatMap((one) => one.blocks)
    .filter(({ content }) => content.is === 'exercise' && content.exercise === exercise);
  const played = exerciseDay(known, exercise);
  if (own !== null && (sharing.length > 1 || played === null || played < own)) return own;
  return sharing.length > 1 ? own : played;
}

/** Half what was not clean lately, half what is missing to the target; 0 strong, 1 weak. */
function weaknessOf(routine: Routine, exercise: string | null, known: Known): number {
  const going = exercise === null ? undefined : known.going.get(exercise);
  const target = exercise === null ? undefined : exerciseOf(routine, exercise)?.ladder.target;
  if (going === undefined || going.clean === null || target === undefined) return UNKNOWN_WEAK;
  const missing = going.best === null ? 1 : Math.max(0, 1 - going.best / target);
  return (1 - going.clean + missing) / 2;
}

function saidWeak(known: Known, exercise: string | null): string {
  const clean = exercise === null ? null : (known.going.get(exercise)?.clean ?? null);
  return clean !== null && clean < 0.7 ? `, ${Math.round(clean * 100)} % clean lately` : '';
}

const saidWant = (block: Block): string =>
  block.want >= 4 ? ', much wanted' : block.want <= 2 ? ', little wanted' : '';

const clock = (minutes: Minutes): string =>
  `${Math.floor(minutes)}:${String(Math.round((minutes % 1) * 60)).padStart(2, '0')}`;

function reasonOf(block: Block, due: Due, known: Known, exercise: string | null, playedToday: Minutes): string {
  if (playedToday > 0) return `begun today, ${clock(playedToday)} played`;
  if (block.content.is === 'rest') return 'rest';
  const must = block.warmUp
    ? 'warm-up, always first'
    : block.always
      ? 'in every day'
      : due.presses && due.said !== 'not played yet'
        ? `its day has come: ${due.said}`
        : due.said;
  return must + saidWeak(known, exercise) + saidWant(block);
}

/** What is open of a block today; a string says why nothing is. */
function openOf(block: Block, known: Known, key: string): { full: Minutes; least: Minutes; played: Minutes } | string {
  const today = known.today.get(key);
  if (today === undefined) return { full: block.minutes, least: block.least, played: 0 };
  if (today.event === 'done') return 'done today';
  if (today.event === 'skipped') return 'skipped today';
  const played = today.played / 60;
  const full = Math.max(today.length / 60, block.minutes) - played;
  if (full < 0.5) return 'done today';
  return { full, least: Math.min(block.least, full), played };
}

function chosenOf(
  routine: Routine,
  part: Part,
  block: Block,
  known: Known,
  taken: Map<string, Set<string>>,
  chance: Chance,
): Chosen | null {
  const { content } = block;
  const begun = known.today.get(blockKey(routine.id, part.id, block.id))?.exercise ?? null;
  if (content.is === 'pool' && begun === null) {
    const pool = routine.pools.find(({ id }) => id === content.pool);
    const set = taken.get(content.pool) ?? new Set<string>();
    taken.set(content.pool, set);
    return pool === undefined ? null : drawn(pool, known, set, chance);
  }
  const exercise = content.is === 'exercise' ? content.exercise : begun;
  // Played today outside this block: nothing is due, but it may come in when time is left.
  return { exercise, ...dueAfter(waitedSince(known, lastDayOf(routine, part, block, known)), block.everyDays) };
}

function worthOf(routine: Routine, block: Block, chosen: Chosen, known: Known): number {
  if (block.content.is === 'rest') return REST_WORTH;
  const must = block.always || chosen.presses ? MUST : 1;
  const due = Math.max(chosen.due, 0.1);
  return must * due * (1 + weaknessOf(routine, chosen.exercise, known)) * (block.want / 3);
}

function insteadOf(routine: Routine, block: Block, { others = [] }: Chosen, known: Known): readonly Instead[] {
  return others.flatMap((other) => {
    const exercise = exerciseOf(routine, other.exercise);
    if (exercise === null) return [];
    const { id, title, kind } = exercise;
    return [{ exercise: id, title, kind, reason: reasonOf(block, other, known, id, 0) }];
  });
}

/**
 * Every block of the given parts: a candidate with its worth and the reason, or why it is none today.
 * Draws from pools and ties are settled by `chance`.
 */
export function weighed(
  routine: Routine,
  parts: readonly Part[],
  known: Known,
  chance: Chance,
): readonly (Candidate | Barred)[] {
  const taken = new Map<string, Set<string>>();
  return parts.flatMap((part) =>
    part.blocks.map((block) => {
      const open = openOf(block, known, blockKey(routine.id, part.id, block.id));
      if (typeof open === 'string') return { part, block, reason: open };
      const chosen = chosenOf(routine, part, block, known, taken, chance);
      if (chosen === null) return { part, block, reason: 'everything in its pool was played today' };
      const exercise = chosen.exercise === null ? null : exerciseOf(routine, chosen.exercise);
      return {
        part,
        block,
        exercise: exercise?.id ?? chosen.exercise,
        title: block.content.is === 'pool' && exercise !== null ? exercise.title : block.title,
        kind: block.content.is === 'pool' && exercise !== null ? exercise.kind : block.kind,
        full: open.full,
        least: open.least,
        worth: worthOf(routine, block, chosen, known) * (1 + 1e-6 * chance()),
        reason: reasonOf(block, chosen, known, chosen.exercise, open.played),
        instead: insteadOf(routine, block, chosen, known),
      };
    }),
  );
}

export const isCandidate = (one: Candidate | Barred): one is Candidate => 'worth' in one;
