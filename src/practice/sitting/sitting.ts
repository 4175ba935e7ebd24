/** A routine that is being played: the run's clock and the practice at hand, kept together. */
import { type TensionLevel } from '../../diary/entry.ts';
import { type Line } from '../../ladder/line.ts';
import { putOnStand } from './put-on-stand.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';

import { type Routine, exerciseOf } from '../../plan/routine/routine.ts';
import { type RunItem, itemsOfPlan } from '../../plan/run/run-items.ts';
import { restoreRun } from '../../plan/run/interrupted-sitting.ts';
import {
  GAP,
  type Run,
  type RunAction,
  type RunEffect,
  type RunEvent,
  type RunStep,
  beginRun,
  current,
  runOn,
} from '../../plan/run/running-routine.ts';
import type { Seconds } from '../../common/units.ts';
import { doAction } from '../line/line-keys.ts';
import { type Effect, isRunning } from '../line/line-on-stand.ts';
import { type Stand, type StandStep, type Tone, still } from '../stand.ts';
import { sound } from '../line/line-steps.ts';
import { keepDrawn } from './keys-that-came.ts';
import { type Narrowed, dueAgain, dueNext } from './next-key.ts';
import { knownToday } from '../screens/today-keys.ts';

/** Silence, drone included. */
export const SILENCE: readonly Effect[] = [sound({ ask: 'stop' }), sound({ ask: 'drone', drone: null })];

const isLadderWork = ({ work }: Exercise): boolean => work === undefined || work === 'ladder';

const routineOf = ({ routines }: Stand, run: Run): Routine | null =>
  routines.find(({ id }) => id === run.routine) ?? null;

/** The exercise of the run's current item; null for a rest or a block without one. */
export function exerciseNow(stand: Stand): Exercise | null {
  const { run } = stand;
  const item = run && current(run);
  const routine = run && routineOf(stand, run);
  return routine && item?.exercise ? exerciseOf(routine, item.exercise) : null;
}

/** A block shorter than this goes through its keys once: common practice, no source. */
const SHORT: Seconds = 240;

/** What the block narrows its exercise to; everything outside a sitting. */
export function narrowedNow({ run }: Stand): Narrowed {
  const item = run && current(run);
  return {
    keys: item?.keys ?? null,
    articulations: item?.articulations ?? null,
    once: item !== null && item.length < SHORT,
  };
}

/** Put a block on the stand: a line with its ladder, or the block's own screen. */
function open(stand: Stand, item: RunItem): StandStep {
  const bare: Stand = { ...stand, screen: 'block', practice: null, tone: null, toKeep: [] };
  const exercise = exerciseNow(bare);
  if (!exercise || !hasKey(exercise)) return { state: bare, effects: SILENCE };
  // A block that is gone on with was drawn when it began.
  const due = (item.played > 0 || item.begun === true ? dueAgain : dueNext)(bare, exercise, narrowedNow(bare));
  if (!due) return { state: bare, effects: SILENCE };
  const state = isLadderWork(exercise)
    ? putOnStand(bare, exercise, due, null)
    : { ...bare, tone: toneOf(bare, exercise, due.line) };
  return { state: { ...state, toKeep: keepDrawn(exercise, due) }, effects: SILENCE };
}

/** Work on the body has no key. */
const hasKey = (exercise: Exercise): boolean =>
  isLadderWork(exercise) || exercise.pattern !== null || exercise.drone !== undefined;

function toneOf(stand: Stand, exercise: Exercise, line: Line): Tone {
  const { drone, drill } = stand.prepare(exercise, line);
  return { line, drone, drill, on: exercise.drone !== undefined };
}

const toneEffect = ({ drone, on }: Tone): Effect => sound({ ask: 'drone', drone: on ? drone : null });

export function toggleTone(stand: Stand): StandStep {
  if (!stand.tone) return still(stand);
  const tone = { ...stand.tone, on: !stand.tone.on };
  return { state: { ...stand, tone }, effects: [toneEffect(tone)] };
}

/** The sound stops; the drone of a block without a ladder too. */
function stop(stand: Stand): StandStep {
  if (!stand.practice) return { state: stand, effects: SILENCE };
  if (!isRunning(stand.practice)) return still(stand);
  const { state: practice, effects } = doAction(stand.practice, 'start-pause');
  return { state: { ...stand, practice }, effects };
}

function perform(stand: Stand, effect: RunEffect): StandStep {
  switch (effect.do) {
    case 'record':
      return { state: stand, effects: [{ type: 'record', record: effect.record }] };
    case 'chime':
      return { state: stand, effects: [sound({ ask: 'chime' })] };
    case 'open':
      return open(stand, effect.item);
    case 'still':
      return stop(stand);
    case 'play':
      // The block's clock runs; of a line on its ladder the player's own key starts the click.
      return {
        state: { ...stand, toKeep: [] },
        effects: [...stand.toKeep, ...(stand.tone ? [toneEffect(stand.tone)] : [])],
      };
  }
}

/** The run's step, carried out on the stand. */
function took(stand: Stand, step: RunStep): StandStep {
  return step.effects.reduce<StandStep>(
    (so, effect) => {
      const next = perform(so.state, effect);
      return { state: next.state, effects: [...so.effects, ...next.effects] };
    },
    { state: { ...stand, run: step.run }, effects: [] },
  );
}

export function onRun(stand: Stand, event: RunEvent): StandStep {
  if (!stand.run) return still(stand);
  const before = stand.run;
  const step = took(stand, runOn(stand.run, event));
  const ended = step.state.run?.phase === 'finished' && before.phase !== 'finished';
  return ended ? { ...step, state: { ...step.state, screen: 'end', practice: null } } : step;
}

export const act = (stand: Stand, action: RunAction, now: Seconds): StandStep =>
  onRun(stand, { type: 'do', action, now });

/** What was told of the last block, answered on the screen. */
export function tell(stand: Stand, level: TensionLevel, now: Seconds): StandStep {
  const asked = stand.run?.asked;
  const told = onRun(stand, { type: 'tension', level, now });
  if (!asked || !told.state.run) return told;
  const remark = `${asked.title}: tension ${level} of 4; u takes it back.`;
  return { ...told, state: { ...told.state, run: { ...told.state.run, remark } } };
}

/** Takes the last reading or note of the day back. */
export function takeBack(stand: Stand): StandStep {
  const last = stand.records.findLast(
    ({ kind, day }) => (kind === 'tension' || kind === 'note') && day === stand.today,
  );
  if (last?.id === undefined) return still(stand);
  const run = stand.run && {
    ...stand.run,
    remark: last.kind === 'note' ? 'The note is taken back.' : 'The reading is taken back.',
  };
  return { state: { ...stand, run }, effects: [{ type: 'record', record: { kind: 'undo', of: last.id } }] };
}

/** What of today's last sitting was left open, whichever routine it was; null if nothing. */
export function leftOpen({ today, records, routines }: Stand, now: Seconds): Run | null {
  const plan = records.findLast((record) => record.kind === 'plan' && record.day === today);
  const routine = plan?.kind === 'plan' ? routines.find(({ id }) => id === plan.routine) : undefined;
  return routine ? restoreRun(routine, today, records, now) : null;
}

const atRate = ({ clockRate }: Stand, run: Run): Run => (clockRate === 1 ? run : { ...run, gap: GAP * clockRate });

/** Begin with the plan, from the item under the finger on. */
export function begin(stand: Stand, now: Seconds): StandStep {
  const { plan, row } = stand.day;
  if (!plan) return still(stand);
  const items = itemsOfPlan(plan, knownToday(stand)).slice(row);
  const { run, effects } = beginRun(plan.routine, items, now);
  return took({ ...stand, marks: [] }, { run: atRate(stand, run), effects });
}

/** Go on where the last sitting was left. */
export function goOn(stand: Stand, now: Seconds): StandStep {
  const run = leftOpen(stand, now);
  const item = run && current(run);
  if (!run || !item) return still(stand);
  return open({ ...stand, run: atRate(stand, run) }, item);
}
