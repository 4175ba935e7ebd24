/** What each key does on the screen that shows. */
import type { TensionLevel } from '../diary/entry.ts';
import { type RunAction, isClockRunning } from '../plan/run/running-routine.ts';
import { decide } from './line/line-events.ts';
import type { DroneAction } from './line/drone-on-stand.ts';
import { isPracticeAction } from './line/line-keys.ts';
import { isRunning } from './line/line-state.ts';
import type { PracticeAction } from './line/line-on-stand.ts';
import { wayLeft } from './line/way-being-played.ts';
import { EXERCISES } from './screens/exercises-keys.ts';
import { GRID, leaveGrid, openGrid } from './screens/grid-keys.ts';
import { HAND, lookForMore, openList } from './screens/day-list-keys.ts';
import { beginNote, unfinishedNote } from './screens/note-typing.ts';
import { changeExercise, copyExercise, newExercise, retireExercise } from './screens/own-form-keys.ts';
import type { OwnAction } from './screens/own-asked.ts';
import { SETTINGS_KEYS, settingsLeft } from './screens/settings-keys.ts';
import { isMeant, isPedal, pedalled } from './screens/pedal-keys.ts';
import { TODAY, afterPlaying } from './screens/today-keys.ts';
import { takesText, typeText } from './screens/typing.ts';
import { isDial, turnDial } from './screens/volume-keys.ts';
import { WAYS, askForWay, leaveWays } from './screens/ways-keys.ts';
import { backInWeeks, onWeeks, openWeeks } from './weeks/weeks-keys.ts';
import { act, begin, goOn, isSounding, itemNow, onTone, stop } from './sitting/sitting.ts';
import { answerTension } from './sitting/tension-reading.ts';
import { changeTurn, isTurnAction } from './sitting/turn-by-key.ts';
import { takeBack } from './sitting/take-back.ts';
import {
  type Action,
  type SittingAction,
  type Stand,
  type StandEvent,
  type StandStep,
  type View,
  practiceOf,
  withPractice,
} from './stand.ts';
import { SILENCE, andThen, say, step, within } from './step.ts';

type Did = Extract<StandEvent, { type: 'do' }>;

const isOf = <Some extends Action>(table: Readonly<Record<Some, unknown>>, action: Action): action is Some =>
  Object.hasOwn(table, action);

/** A sitting that is left keeps what was played, and a note that was being written. */
const leave = (stand: Stand): StandStep =>
  andThen(act(stand, 'leave'), (left) =>
    step({ ...left, leaving: true }, ...unfinishedNote(left), ...wayLeft(practiceOf(left)), ...SILENCE),
  );

/** From anywhere back to Today, whose proposal stays but for what was done meanwhile. */
function backToToday(stand: Stand): StandStep {
  const silence = practiceOf(stand) || stand.sitting ? SILENCE : [];
  return andThen(act(stand, 'leave'), (left) =>
    step(afterPlaying({ ...left, view: { screen: 'today' }, sitting: null }), ...wayLeft(practiceOf(left)), ...silence),
  );
}

/** To where the screen was opened from. */
function back(stand: Stand): StandStep {
  const { view } = stand;
  if (view.screen === 'ways') return step(leaveWays(stand, view));
  if (view.screen === 'grid') return step(leaveGrid(stand, view));
  if (view.screen === 'weeks') return backInWeeks(stand, view) ?? backToToday(stand);
  const quiet = settingsLeft(stand);
  if (view.screen === 'settings' && view.from) return step({ ...stand, view: { screen: view.from } }, ...quiet);
  const { state, effects } = backToToday(stand);
  return step(state, ...quiet, ...effects);
}

const settingsFrom = ({ view }: Stand): View =>
  view.screen === 'exercises' ? { screen: 'settings', from: 'exercises' } : { screen: 'settings' };

const RUN_ACTIONS: Readonly<
  Record<Exclude<SittingAction, 'play-block' | 'pause-block' | 'tension' | 'note' | 'add'>, RunAction>
> = {
  'next-block': 'next',
  longer: 'extend',
  'skip-block': 'skip',
  'swap-block': 'swap',
  'block-before': 'back',
  breath: 'breath',
};

/** A breath counts while the clock runs; where it stands, the key says so. */
function countBreath(stand: Stand): StandStep {
  const item = itemNow(stand);
  const isAsked = stand.sitting !== null && item?.breaths != null && stand.sitting.run.breaths < item.breaths;
  if (!isAsked || isClocked(stand)) return act(stand, 'breath');
  return step(stand, say('Breaths count while the clock runs: start it first.'));
}

const isClocked = ({ sitting }: Stand): boolean => sitting !== null && isClockRunning(sitting.run);

/** The block's clock, started or stopped. */
const startOrStopClock = (stand: Stand): StandStep => act(stand, isClocked(stand) ? 'pause' : 'start');

const onLine = (stand: Stand, action: PracticeAction): StandStep => {
  const practice = practiceOf(stand);
  return practice
    ? within(decide(practice, { type: 'do', action }), (state) => withPractice(stand, state))
    : step(stand);
};

/** Click and clock start together and stop together, drone included. */
function startOrPause(stand: Stand): StandStep {
  const practice = practiceOf(stand);
  const { sitting } = stand;
  if (!practice) return step(stand);
  if (!sitting) return onLine(stand, 'start-pause');
  if (isRunning(practice)) return andThen(onLine(stand, 'start-pause'), (quiet) => act(quiet, 'pause'));
  const clocked = isClocked(stand) ? step(stand) : act(stand, 'start');
  return andThen(clocked, (state) => onLine(state, 'start-pause'));
}

/** The door rings: whatever runs or sounds stops. Where nothing does, clock, click and drone go on. */
function stopOrGoOn(stand: Stand): StandStep {
  if (isClocked(stand)) return act(stand, 'pause');
  if (isSounding(stand)) return stop(stand);
  return practiceOf(stand) ? startOrPause(stand) : startOrStopClock(stand);
}

const DRONE_KEYS: Readonly<Record<DroneAction, true>> = {
  drone: true,
  'drone-up': true,
  'drone-down': true,
  'drone-home': true,
};

const isDroneAction = (action: Action): action is DroneAction => isOf(DRONE_KEYS, action);

function onPractice(stand: Stand, action: Action): StandStep {
  if (action === 'way') return askForWay(stand);
  if (action === 'grid') return openGrid(stand);
  if (isTurnAction(action)) return changeTurn(stand, action);
  if (action === 'start-pause') return startOrPause(stand);
  if (action === 'pause-block') return stopOrGoOn(stand);
  return isPracticeAction(action) ? onLine(stand, action) : step(stand);
}

function onBlock(stand: Stand, action: Action): StandStep {
  if (action === 'play-block') return startOrStopClock(stand);
  if (action === 'pause-block') return stopOrGoOn(stand);
  if (isTurnAction(action)) return changeTurn(stand, action);
  return isDroneAction(action) ? onTone(stand, action) : step(stand);
}

const OWN: Readonly<Record<OwnAction, (stand: Stand) => StandStep>> = {
  'new-exercise': newExercise,
  change: changeExercise,
  copy: copyExercise,
  retire: retireExercise,
};

function onExercises(stand: Stand, action: Action): StandStep {
  if (isOf(OWN, action)) return OWN[action](stand);
  return step(isOf(EXERCISES, action) ? EXERCISES[action](stand) : stand);
}

function onToday(stand: Stand, { action, key }: Did): StandStep {
  if (action === 'new-exercise') return newExercise(stand);
  if (action === 'open') return begin(stand);
  if (action === 'go-on') return goOn(stand);
  if (action === 'list') return step(openList(stand));
  return step(isOf(TODAY, action) ? TODAY[action](stand, key) : stand);
}

/** Keys of a running routine, whichever of its screens shows; null for all others. */
function inSitting(stand: Stand, { action, key }: Did): StandStep | null {
  if (action === 'undo') return takeBack(stand);
  if (!stand.sitting) return null;
  if (action === 'note') return beginNote(stand);
  if (action === 'add') return lookForMore(stand);
  if (action === 'tension') return answerTension(stand, Number(key) as TensionLevel);
  if (action === 'breath') return countBreath(stand);
  return isOf(RUN_ACTIONS, action) ? act(stand, RUN_ACTIONS[action]) : null;
}

/** The keys of the screen that shows. */
function onScreen(stand: Stand, did: Did): StandStep {
  const { view } = stand;
  const { action } = did;
  switch (view.screen) {
    case 'today':
      return onToday(stand, did);
    case 'exercises':
      return onExercises(stand, action);
    case 'weeks':
      return onWeeks(stand, view, action);
    case 'ways':
      return isOf(WAYS, action) ? WAYS[action](stand, view) : step(stand);
    case 'grid':
      if (action === 'grid') return step(leaveGrid(stand, view));
      return isOf(GRID, action) ? GRID[action](stand, view) : step(stand);
    case 'practice':
      return inSitting(stand, did) ?? onPractice(stand, action);
    case 'block':
      return inSitting(stand, did) ?? onBlock(stand, action);
    case 'end':
      return inSitting(stand, did) ?? step(stand);
    case 'list':
      return isOf(HAND, action) ? HAND[action](stand, view) : step(stand);
    case 'settings':
      return isOf(SETTINGS_KEYS, action) ? SETTINGS_KEYS[action](stand, view) : step(stand);
    case 'first':
    case 'form':
      return step(stand);
  }
}

/** Keys that mean the same everywhere. */
function anywhere(stand: Stand, did: Did): StandStep {
  const { action } = did;
  if (action === 'leave') return leave(stand);
  if (action === 'help') return step({ ...stand, help: !stand.help });
  if (stand.help) return step({ ...stand, help: false });
  if (action === 'back' && stand.view.screen !== 'list') return back(stand);
  if (isDial(action)) return turnDial(stand, action);
  if (action === 'weeks') return step(openWeeks(stand));
  if (action === 'settings') return step({ ...stand, view: settingsFrom(stand) });
  if (isPedal(action)) {
    const does = pedalled(stand, action);
    return isMeant(does) ? anywhere(stand, { ...did, ...does }) : step(does);
  }
  // Putting the program to sleep is the terminal's business, not the stand's.
  return action === 'suspend' ? step(stand) : onScreen(stand, did);
}

/** A key was pressed. A text that is being written takes every key as it is. */
export function onKey(stand: Stand, did: Did): StandStep {
  const pressed: Stand = { ...stand, answer: null, now: did.now };
  if (!takesText(pressed)) return anywhere(pressed, did);
  return did.key === 'ctrl+c' ? leave(pressed) : typeText(pressed, did.key);
}
