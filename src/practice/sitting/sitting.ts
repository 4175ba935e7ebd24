/** A routine that is being played: the run's clock and what lies on the stand, kept together. */
import { BY_HAND, type DayEntry } from '../../diary/entry.ts';
import { type BlockDrone, type Exercise, hasLadder } from '../../plan/routine/exercise.ts';
import { type Routine, exerciseOf } from '../../plan/routine/routine.ts';
import { restoreRun } from '../../plan/run/interrupted-sitting.ts';
import { type RunItem, itemsOfPlan } from '../../plan/run/run-items.ts';
import {
  GAP,
  type Run,
  type RunAction,
  type RunEffect,
  type RunEvent,
  type RunStep,
  beginRun,
  current,
  isClockRunning,
  runOn,
} from '../../plan/run/running-routine.ts';
import { type DueTurn, comesWithMark, nextTurn, turnAgain } from '../../plan/rotation/next-turn.ts';
import { type Narrowing, narrowedBy } from '../../plan/rotation/block-narrowing.ts';
import { isDone } from '../../plan/today/hand-list.ts';
import { type DroneAction, droneAtFirst, droneEffect, onDroneKey, waiting, woken } from '../line/drone-on-stand.ts';
import { hush } from '../line/line-keys.ts';
import { isRunning } from '../line/line-state.ts';
import { wayLeft } from '../line/way-being-played.ts';
import {
  type Stand,
  type StandStep,
  type Tone,
  type View,
  type Work,
  practiceOf,
  withRun,
  withWork,
  workOf,
} from '../stand.ts';
import { handRoutineOf, knownToday, routineToday } from '../screens/today-keys.ts';
import { type Effect, SILENCE, andThen, keep, say, sound, step, within } from '../step.ts';
import { drawsOf, keepLaid, keepTurn, namesToKeep } from './keys-that-came.ts';
import { turnAsked } from './next-key.ts';
import { putOnStand } from './put-on-stand.ts';

/** The routine of the running sitting; null outside one. */
export function routineNow(stand: Stand): Routine | null {
  const id = stand.sitting?.run.routine;
  return id === BY_HAND ? handRoutineOf(stand) : (stand.known.routines.find((one) => one.id === id) ?? null);
}

/** The item at hand of the running sitting; null outside one. */
export const itemNow = ({ sitting }: Stand): RunItem | null => sitting && current(sitting.run);

/** What the journal says of the running sitting, oldest first; nothing outside one. */
export function recordsNow({ known: { records }, sitting }: Stand): readonly DayEntry[] {
  const began = records.findLastIndex(({ kind }) => kind === 'plan');
  return sitting && began >= 0 ? records.slice(began + 1) : [];
}

/** The exercise of the item at hand; null for a rest or a block without one. */
export function exerciseNow(stand: Stand): Exercise | null {
  const item = itemNow(stand);
  const routine = routineNow(stand);
  if (!item?.exercise) return null;
  // What was put in by hand may come from another file.
  const own = routine && item.part !== BY_HAND ? exerciseOf(routine, item.exercise) : null;
  return own ?? stand.known.exercises.find(({ id }) => id === item.exercise) ?? null;
}

/** What the block narrows its exercise to; everything outside a sitting. */
export const narrowedNow = (stand: Stand): Narrowing => narrowedBy(itemNow(stand));

/** Work on the body has no key, unless it is said to have a drone. */
const hasKey = (exercise: Exercise, blockDrone: BlockDrone): boolean =>
  hasLadder(exercise) ||
  exercise.kind !== 'body' ||
  exercise.pattern !== null ||
  droneAtFirst(exercise, blockDrone) !== 'off';

/** What the block at hand says of its exercise: where it lies on the instrument, and its drone. */
type SaidOfBlock = Pick<RunItem, 'place' | 'drone'>;

function toneOf({ known }: Stand, exercise: Exercise, { line, name }: DueTurn, said: SaidOfBlock): Tone {
  const { drone, drill } = known.prepare(exercise, line, said.place, said.drone);
  const droneState = droneAtFirst(exercise, said.drone);
  return { line, drone, drill, droneState, droneStep: 0, toKeep: keepTurn(exercise, name) };
}

const onBlock = (stand: Stand, tone: Tone | null): Stand => ({ ...stand, view: { screen: 'block', tone } });

/** Put a block on the stand: a line with its ladder, or the block's own screen. */
function open(stand: Stand, item: RunItem): Stand {
  const exercise = exerciseNow(stand);
  if (!exercise || !hasKey(exercise, item.drone)) return onBlock(stand, null);
  // A block that is gone on with was drawn when it began.
  const isGoneOn = item.played > 0 || item.begun === true;
  const narrowed = narrowedNow(stand);
  const due = (isGoneOn ? turnAgain : nextTurn)(turnAsked(stand.known, exercise, narrowed));
  if (!due) return onBlock(stand, null);
  return hasLadder(exercise)
    ? putOnStand(
        stand,
        exercise,
        { ...due, place: narrowed.place, blockDrone: item.drone },
        null,
        keepTurn(exercise, due.name),
      )
    : onBlock(stand, toneOf(stand, exercise, due, item));
}

/** Another key of a block without a ladder: its drone follows, and what plays already has come at once. */
export function changedTone(stand: Stand, tone: Tone, due: DueTurn): StandStep {
  const exercise = exerciseNow(stand);
  const item = itemNow(stand);
  if (!exercise || !item) return step(stand);
  const isPlaying = stand.sitting !== null && isClockRunning(stand.sitting.run);
  const next: Tone = { ...toneOf(stand, exercise, due, item), droneState: tone.droneState };
  const laid = onBlock(stand, isPlaying ? { ...next, toKeep: [] } : next);
  return step(laid, ...(isPlaying ? next.toKeep : keepLaid(exercise, due.name)), droneEffect(next));
}

/** A key of the drone's in a block without a ladder. */
export function onTone(stand: Stand, action: DroneAction): StandStep {
  const { view } = stand;
  if (view.screen !== 'block') return step(stand);
  if (!view.tone) return step(stand, say('This block has no key for a drone.'));
  return within(onDroneKey(view.tone, view.tone.line.key, action), (tone) => onBlock(stand, tone));
}

/** Whether a click or a drone sounds. */
export function isSounding({ view }: Stand): boolean {
  if ('work' in view) return isRunning(view.work.practice) || view.work.practice.droneState === 'on';
  return view.screen === 'block' && view.tone?.droneState === 'on';
}

/** A drone that sounded waits. */
const quiet = (stand: Stand): Stand =>
  stand.view.screen === 'block' && isSounding(stand) && stand.view.tone
    ? onBlock(stand, waiting(stand.view.tone))
    : stand;

/** The sound stops, the drone too. */
export function stop(stand: Stand): StandStep {
  const work = workOf(stand);
  if (!work) return step(quiet(stand), ...SILENCE);
  const { state: practice, effects } = hush(work.practice);
  return step(
    withWork(stand, (one) => ({ ...one, practice })),
    ...effects,
  );
}

/** Where ways of tonguing take turns in the block's one key, a block that is gone on with has to find that key. */
function laidOf({ known }: Stand, { practice, toKeep }: Work): readonly Effect[] {
  const { exercise } = practice;
  const [name = null] = namesToKeep(toKeep);
  const isFound = drawsOf(known.records, exercise).at(-1)?.item === name;
  return exercise.rotation?.change === 'repetition' || isFound ? [] : keepLaid(exercise, name);
}

/** The block's clock runs, and what came round is being played; the player's own key starts the click of a ladder. */
function play(stand: Stand): StandStep {
  const { view } = stand;
  if ('work' in view) {
    if (comesWithMark(view.work.practice.exercise)) return step(stand, ...laidOf(stand, view.work));
    return step(
      withWork(stand, (work) => ({ ...work, toKeep: [] })),
      ...view.work.toKeep,
    );
  }
  if (view.screen !== 'block' || !view.tone) return step(stand);
  const { toKeep } = view.tone;
  const tone: Tone = { ...woken(view.tone), toKeep: [] };
  return step(onBlock(stand, tone), ...toKeep, droneEffect(tone));
}

function perform(stand: Stand, effect: RunEffect): StandStep {
  switch (effect.do) {
    case 'record':
      return step(stand, keep(effect.record));
    case 'chime':
      return step(stand, sound({ ask: 'chime' }));
    case 'open':
      return step(open(stand, effect.item), ...wayLeft(practiceOf(stand)), ...SILENCE);
    case 'still':
      return stop(stand);
    case 'play':
      return play(stand);
  }
}

const END: View = { screen: 'end', note: null };

/** The run's step, carried out on the stand. A sitting that is over shows its end. */
export function carriedOut(stand: Stand, { run, effects }: RunStep): StandStep {
  const before = stand.sitting?.run.phase;
  const done = effects.reduce<StandStep>(
    (so, effect) => andThen(so, (state) => perform(state, effect)),
    step(withRun(stand, run)),
  );
  const isOver = run.phase === 'finished' && before !== 'finished';
  if (!isOver) return done;
  return andThen(done, (state) => step({ ...state, view: END }, ...wayLeft(practiceOf(state))));
}

export const onRun = (stand: Stand, event: RunEvent): StandStep =>
  stand.sitting ? carriedOut(stand, runOn(stand.sitting.run, event)) : step(stand);

export const act = (stand: Stand, action: RunAction): StandStep => onRun(stand, { type: 'do', action, now: stand.now });

/** What of today's sitting with the routine on the screen was left open; null if nothing. */
export function leftOpen(stand: Stand): Run | null {
  const { today, records } = stand.known;
  const routine = routineToday(stand);
  return routine ? restoreRun(routine, today, records, stand.now, stand.known.exercises) : null;
}

const atRate = ({ clockRate }: Stand, run: Run): Run => (clockRate === 1 ? run : { ...run, gap: GAP * clockRate });

/** Begin with the plan, from the item under the finger on. */
export function begin(stand: Stand): StandStep {
  const { plan, row } = stand.day;
  if (!plan) return step(stand);
  const before = knownToday(stand);
  // Of a list by hand, what was done today is not played again unless it is what was chosen.
  const isOpen = (item: RunItem, i: number): boolean =>
    i >= row && (plan.routine !== BY_HAND || i === row || !isDone(item, before));
  const items = itemsOfPlan(plan, before).filter(isOpen);
  const { run, effects } = beginRun(plan.routine, items, stand.now);
  return carriedOut({ ...stand, marks: [] }, { run: atRate(stand, run), effects });
}

/** Go on where the sitting on the screen was left. */
export function goOn(stand: Stand): StandStep {
  const run = leftOpen(stand);
  const item = run && current(run);
  if (!run || !item) return step(stand);
  return step(open(withRun(stand, atRate(stand, run)), item), ...SILENCE);
}
