/**
 * A running routine as a state machine: (run, event) -> run and effects as data.
 *
 * Time is what a monotonic clock says, handed in with each event: midnight, another zone and a clock set
 * back do not touch it. While a block plays, a tick comes at least every second; so a gap of more than
 * GAP seconds means that the computer slept or the program was stopped. The time of a gap is not counted,
 * and the block waits for the player.
 */
import type { Unstamped, DayEntry, TensionLevel } from '../../diary/entry.ts';
import type { Seconds } from '../../common/units.ts';
import { minutesAndSeconds } from '../../common/time-words.ts';
import {
  type RunItem,
  blockRecord,
  isBlockOver,
  isRestItem,
  isWellBegun,
  plannedItem,
  sameBlock,
} from './run-items.ts';

export type Phase =
  /** A block lies ready and waits for the player. */
  | 'ready'
  | 'playing'
  | 'paused'
  /** The block's time is up; the player goes on when they like, and what is played until then counts. */
  | 'over'
  | 'left'
  | 'finished';

export interface Run {
  readonly routine: string;
  readonly items: readonly RunItem[];
  /** Index of the current item; the number of items when finished. */
  readonly at: number;
  readonly phase: Phase;
  /** Monotonic time of the last event. */
  readonly clock: Seconds;
  /** Played since the journal last heard of the block. */
  readonly unsaid: Seconds;
  /** Breaths counted in the current item. */
  readonly breaths: number;
  /** Played in the current item when the last breath was counted. */
  readonly breathAt?: Seconds;
  /** The block whose tension may be told now; null when nothing is asked. */
  readonly asked: { readonly title: string; readonly exercise: string | null } | null;
  /** One sentence for the player; empty when there is nothing to say. */
  readonly remark: string;
  /** What counts as sleep, where it is not GAP: a clock that runs faster is late by more. */
  readonly gap?: Seconds;
}

export type RunAction = 'start' | 'pause' | 'next' | 'extend' | 'skip' | 'swap' | 'back' | 'breath' | 'leave';

export type RunEvent =
  | { readonly type: 'tick'; readonly now: Seconds }
  | { readonly type: 'do'; readonly action: RunAction; readonly now: Seconds }
  | { readonly type: 'tension'; readonly level: TensionLevel; readonly now: Seconds };

export type RunEffect =
  | { readonly do: 'record'; readonly record: Unstamped<DayEntry> }
  /** One gentle sound at the next bar line. */
  | { readonly do: 'chime' }
  /** Put this item on the stand; what sounded before ends at its next bar line. */
  | { readonly do: 'open'; readonly item: RunItem }
  /** The current item starts, goes on or stands still. */
  | { readonly do: 'play' | 'still' };

export interface RunStep {
  readonly run: Run;
  readonly effects: readonly RunEffect[];
}

/** No tick for so long means that the computer slept. */
export const GAP: Seconds = 10;
/** What 'extend' adds, and what going back to a finished block gives it. */
export const EXTRA: Seconds = 60;
/** The journal hears of a block that goes on this often. */
export const SAY_EVERY: Seconds = 60;

export const current = (run: Run): RunItem | null => run.items[run.at] ?? null;

export const secondsLeft = (item: RunItem): Seconds => Math.max(0, item.length - item.played);

const isWork = (item: RunItem): boolean => item.state === 'open' && !isRestItem(item);

/** What is open after an item, else what was left open before it; a rest only where work follows. */
function openAfter({ items, at }: Run): number {
  const later = items.findIndex(
    (item, i) => i > at && item.state === 'open' && (isWork(item) || items.slice(i).some(isWork)),
  );
  return later >= 0 ? later : items.findIndex((item, i) => i !== at && isWork(item));
}

/** What comes next, to be shown ahead; null after the last. */
export const nextItem = (run: Run): RunItem | null => run.items[openAfter(run)] ?? null;

const still = (run: Run): RunStep => ({ run, effects: [] });

const withItem = (run: Run, change: Partial<RunItem>, at = run.at): Run => ({
  ...run,
  items: run.items.map((item, i) => (i === at ? { ...item, ...change } : item)),
});

const say = (run: Run, item: RunItem, event: Parameters<typeof blockRecord>[3]): readonly RunEffect[] =>
  isRestItem(item) ? [] : [{ do: 'record', record: blockRecord(run.routine, run.items, item, event) }];

const isRunning = ({ phase }: Run): boolean => phase === 'playing' || phase === 'over';

const openAt = (run: Run, at: number): Run => ({ ...run, at, phase: 'ready', breaths: 0, breathAt: 0, unsaid: 0 });

/** A new run of these items; the first effect writes the plan down, so that it can be gone on with. */
export function beginRun(routine: string, items: readonly RunItem[], now: Seconds): RunStep {
  const run: Run = {
    routine,
    items,
    at: 0,
    phase: 'ready',
    clock: now,
    unsaid: 0,
    breaths: 0,
    asked: null,
    remark: '',
  };
  const [first] = items;
  if (first === undefined) return still({ ...run, phase: 'finished' });
  const record = { kind: 'plan', routine, items: items.map(plannedItem) } as const;
  return {
    run,
    effects: [
      { do: 'record', record },
      { do: 'open', item: first },
    ],
  };
}

function start(run: Run): RunStep {
  const item = current(run);
  if (item === null || (run.phase !== 'ready' && run.phase !== 'paused')) return still(run);
  const playing: Run = { ...run, phase: 'playing', remark: '' };
  const told = run.phase === 'ready' ? say(playing, item, 'started') : [];
  return { run: playing, effects: [...told, { do: 'play' }] };
}

const pause = (run: Run): RunStep =>
  run.phase === 'playing' ? { run: { ...run, phase: 'paused' }, effects: [{ do: 'still' }] } : still(run);

/** To the next open item, playing at once if asked. */
function moveOn(run: Run, playAtOnce: boolean): RunStep {
  const at = openAfter(run);
  const item = run.items[at];
  if (item === undefined)
    return { run: { ...run, at: run.items.length, phase: 'finished' }, effects: [{ do: 'still' }] };
  const opened: RunStep = { run: openAt(run, at), effects: [{ do: 'open', item }] };
  if (!playAtOnce) return opened;
  const started = start(opened.run);
  return { run: started.run, effects: [...opened.effects, ...started.effects] };
}

/** Played for long enough to count, or to its last breath. */
const counts = (run: Run, items: readonly RunItem[]): boolean =>
  run.items.some(({ breaths }, i) => i === run.at && breaths !== null && run.breaths >= breaths) || isWellBegun(items);

const endOf = (run: Run, item: RunItem): 'done' | 'left' =>
  isBlockOver(run.items, item) &&
  counts(
    run,
    run.items.filter((one) => sameBlock(one, item)),
  )
    ? 'done'
    : 'left';

/**
 * The current item is over: the journal hears it, and its tension may be told. One gone on from in its first third was
 * not done.
 */
function finishItem(run: Run): RunStep {
  const item = current(run);
  if (item === null) return still(run);
  const done = withItem(run, { state: isRestItem(item) || counts(run, [item]) ? 'done' : 'skipped' });
  const asked = isRestItem(item) ? run.asked : { title: item.title, exercise: item.exercise };
  return { run: { ...done, asked, unsaid: 0 }, effects: say(done, item, endOf(done, item)) };
}

function then(step: RunStep, more: (run: Run) => RunStep): RunStep {
  const { run, effects } = more(step.run);
  return { run, effects: [...step.effects, ...effects] };
}

/** The time is up, or the last breath was counted. */
function endOfItem(run: Run): RunStep {
  const item = current(run);
  const ended = then(finishItem(run), (done) => ({ run: { ...done, phase: 'over' }, effects: [{ do: 'chime' }] }));
  return item !== null && (item.atEnd === 'go on' || isRestItem(item))
    ? then(ended, (done) => moveOn(done, true))
    : ended;
}

/** Adds the time since the last event to what was played. */
function passTime(run: Run, now: Seconds): RunStep {
  const passed = Math.max(0, now - run.clock);
  const item = current(run);
  const timed: Run = { ...run, clock: now };
  if (item === null || !isRunning(run)) return still(timed);
  if (passed > (run.gap ?? GAP)) return slept(timed, item);
  const played = withItem({ ...timed, unsaid: run.unsaid + passed }, { played: item.played + passed });
  if (run.phase === 'playing' && item.played + passed >= item.length) return endOfItem(played);
  if (played.unsaid < SAY_EVERY) return still(played);
  return {
    run: { ...played, unsaid: 0 },
    effects: say(played, played.items[run.at] as RunItem, run.phase === 'over' ? 'done' : 'going'),
  };
}

const slept = (run: Run, item: RunItem): RunStep => ({
  run: {
    ...run,
    phase: run.phase === 'over' ? 'over' : 'paused',
    remark:
      `The computer slept or was stopped; that time does not count. ` + `${minutesAndSeconds(secondsLeft(item))} left.`,
  },
  effects: [{ do: 'still' }],
});

/** The player goes on, before or after the time is up; from a block that lies ready, into it. */
function next(run: Run): RunStep {
  if (run.phase === 'ready') return start(run);
  return then(run.phase === 'over' ? sayOvertime(run) : finishItem(run), (done) => moveOn(done, true));
}

function sayOvertime(run: Run): RunStep {
  const item = current(run);
  if (item === null || run.unsaid === 0) return still(run);
  return { run: { ...run, unsaid: 0 }, effects: say(run, item, endOf(run, item)) };
}

function extend(run: Run): RunStep {
  const item = current(run);
  if (item === null) return still(run);
  const longer = withItem(run, { length: Math.max(item.length, item.played) + EXTRA, state: 'open' });
  const phase = run.phase === 'over' ? 'playing' : run.phase;
  return { run: { ...longer, phase }, effects: say(longer, longer.items[run.at] as RunItem, 'going') };
}

/** Leaves out all that is open of the current block. */
function skip(run: Run): RunStep {
  const item = current(run);
  if (item === null) return still(run);
  const isRest = isRestItem(item);
  const items = run.items.map((one, i) =>
    one.state === 'open' && (isRest ? i === run.at : sameBlock(one, item))
      ? { ...one, state: 'skipped' as const }
      : one,
  );
  const skipped = { ...run, items };
  return then({ run: skipped, effects: say(skipped, item, 'skipped') }, (left) => moveOn(left, false));
}

/** The current item changes places with the next open one that is no rest. */
function swap(run: Run): RunStep {
  const item = current(run);
  const other = run.items.findIndex((one, i) => i > run.at && isWork(one));
  if (item === null || item.state !== 'open' || isRestItem(item) || other < 0)
    return still({ ...run, remark: 'There is nothing after this block to swap it with.' });
  const items = run.items.with(run.at, run.items[other] as RunItem).with(other, item);
  const told = item.played > 0 ? say(run, item, 'left') : [];
  return { run: openAt({ ...run, items }, run.at), effects: [...told, { do: 'open', item: items[run.at] as RunItem }] };
}

/** To the block before; one whose time was up gets a little more. */
function back(run: Run): RunStep {
  const at = run.items.findLastIndex((item, i) => i < run.at && !isRestItem(item));
  const before = run.items[at];
  if (before === undefined) return still({ ...run, remark: 'This is the first block.' });
  const item = current(run);
  const told = item !== null && item.state === 'open' && item.played > 0 ? say(run, item, 'left') : [];
  const length = secondsLeft(before) < EXTRA ? before.played + EXTRA : before.length;
  const opened = openAt(withItem(run, { state: 'open', length }, at), at);
  return { run: opened, effects: [...told, { do: 'open', item: opened.items[at] as RunItem }] };
}

function breath(run: Run): RunStep {
  const item = current(run);
  if (item === null || item.breaths === null || run.phase !== 'playing') return still(run);
  const counted = { ...run, breaths: run.breaths + 1, breathAt: item.played };
  return counted.breaths >= item.breaths ? endOfItem(counted) : still(counted);
}

function leave(run: Run): RunStep {
  const item = current(run);
  const told = item !== null && item.state === 'open' && item.played > 0 ? say(run, item, 'left') : [];
  const over = run.phase === 'over' ? sayOvertime(run).effects : [];
  return { run: { ...run, phase: 'left' }, effects: [...told, ...over, { do: 'still' }] };
}

const ACTIONS: Readonly<Record<RunAction, (run: Run) => RunStep>> = {
  start,
  pause,
  next,
  extend,
  skip,
  swap,
  back,
  breath,
  leave,
};

const tension = (run: Run, level: TensionLevel): RunStep =>
  run.asked === null
    ? still(run)
    : {
        run: { ...run, asked: null },
        effects: [{ do: 'record', record: { kind: 'tension', level, exercise: run.asked.exercise } }],
      };

/**
 * What an event makes of the run, and what is to be done outside. Nothing happens to one that was left or is finished,
 * but its last block's tension may be told.
 */
export function runOn(run: Run, event: RunEvent): RunStep {
  if (event.type === 'tension') return then(passTime(run, event.now), (timed) => tension(timed, event.level));
  if (run.phase === 'left') return still(run);
  if (run.phase === 'finished')
    return event.type === 'do' && event.action === 'back' ? back({ ...run, clock: event.now }) : still(run);
  const timed = passTime(run, event.now);
  if (event.type === 'tick') return timed;
  // A block that ended in the very moment of the key: the key was meant for it.
  if (timed.run.at !== run.at) return timed;
  return then(timed, ACTIONS[event.action]);
}
