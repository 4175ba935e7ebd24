/** What each of the player's keys does to the line on the stand. */
import { nudged } from '../../ladder/rule/climb.ts';
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import { type Step, keep, sound, step } from '../step.ts';
import { type DroneAction, droneEffect, onDroneKey, waiting, woken } from './drone-on-stand.ts';
import type { Practice, PracticeAction } from './line-on-stand.ts';
import { climbNow, isRunning, markedNow, modelNotes, ruleOf, rungsNow, tempoNext } from './line-state.ts';
import { answer, goOn, keepMark } from './line-steps.ts';
import { breathThenWait, cycle, flows } from './repetition-cycle.ts';
import { withPlayed } from './time-played.ts';
import { takenBack } from './what-happened.ts';

function start(state: Practice): Step<Practice> {
  const fresh = woken({ ...state, due: null, before: null, happened: null });
  const chain = cycle(fresh, tempoNext(fresh));
  const counting = { ...fresh, phase: 'count-in' as const, chain: chain.spans, serial: chain.serial };
  const drone = fresh.droneState === state.droneState ? [] : [droneEffect(fresh)];
  return step(counting, ...drone, sound({ ask: 'play', spans: chain.spans }));
}

/** Pausing drops a repetition that was not finished; a finished one can still be marked. The drone waits. */
function pause(state: Practice): Step<Practice> {
  const finished = state.phase === 'breathing' || state.phase === 'waiting';
  const stopped: Practice = { ...waiting(state), phase: 'stopped', heard: null, chain: [], happened: null };
  const silence = stopped.droneState === state.droneState ? [] : [droneEffect(stopped)];
  const due = finished ? state.due : state.before;
  return step({ ...withPlayed(stopped, state), due, before: null }, sound({ ask: 'stop' }), ...silence);
}

/** Whatever sounds stops; a drone that sounded waits. */
export function hush(state: Practice): Step<Practice> {
  if (isRunning(state)) return pause(state);
  if (state.droneState !== 'on') return step(state);
  const silent = waiting(state);
  return step(silent, droneEffect(silent));
}

const startOrPause = (state: Practice): Step<Practice> => (isRunning(state) ? pause(state) : start(state));

function mark(state: Practice, verdict: Mark): Step<Practice> {
  if (state.awaited) return step(state);
  if (state.before) return keepMark(state, verdict, state.before.bpm, 'player', 'mark of the one before');
  if (!state.due) return answer(state, whyNoMark(state));
  if (state.phase !== 'playing' || verdict === 'missed') return keepMark(state, verdict, state.due.bpm, 'player');
  return withEarly(state, { ...state.due, early: verdict });
}

/** Without a breath the next repetition is led into at once by what was said early; else the mark is waited for. */
function withEarly(state: Practice, due: NonNullable<Practice['due']>): Step<Practice> {
  const early: Practice = { ...state, due };
  const { breathBars, noMark } = state.exercise;
  if (breathBars > 0 || noMark !== 'wait' || flows(state) || state.phase !== 'playing') return step(early);
  if (!due.early) return goOn(early, breathThenWait(early, due.bpm), false);
  const { next } = markedNow(early, due.bpm, due.early);
  return goOn(early, cycle(early, next), false);
}

function whyNoMark(state: Practice): string {
  if (state.way) return 'Marks do not count on a way round a wall; v goes back to the ladder.';
  if (!isRunning(state)) return 'Nothing to mark yet: space starts a repetition.';
  if (state.phase === 'breathing' || state.phase === 'waiting')
    return 'This repetition is marked; u takes the mark back.';
  if (state.phase === 'playing' && flows(state)) return 'The tempo moves on: the next repetition is marked again.';
  return 'The mark is due once you play.';
}

/** A nudge drops the repetition that is not marked yet: it was not played at the new tempo. */
function nudge(state: Practice, by: number): Step<Practice> {
  if (state.awaited) return step(state);
  if (state.way) return answer(state, 'A way round a wall has its own tempos; v goes back to the ladder.');
  const climb = climbNow(state);
  const next = nudged(climb, by, rungsNow(state));
  if (next.bpm === climb.bpm) return answer(state, by > 0 ? 'This is the top rung.' : 'This is the lowest rung.');
  return step({ ...state, awaited: 'tempo' }, keep({ kind: 'tempo', ...state.line, next: next.bpm }));
}

function undo(state: Practice): Step<Practice> {
  if (state.awaited) return step(state);
  if (state.due?.early) {
    const happened = takenBack(climbNow(state), ruleOf(state).cleanUp, state.phase);
    return withEarly({ ...state, happened }, { ...state.due, early: null });
  }
  const last = state.kept.at(-1);
  if (!last) return answer(state, 'Nothing to take back on this line.');
  return step({ ...state, awaited: 'undo' }, keep({ kind: 'undo', of: last.id }));
}

const drone =
  (action: DroneAction) =>
  (state: Practice): Step<Practice> =>
    onDroneKey(state, state.key, action);

function toggleModel(state: Practice): Step<Practice> {
  if (modelNotes(state).length === 0) return answer(state, 'Only a pattern that is written out can be heard.');
  const sentence = state.model
    ? 'You play alone from the next repetition.'
    : 'The pattern sounds softly from the next repetition.';
  return answer({ ...state, model: !state.model }, sentence);
}

const ACTIONS: Readonly<Record<PracticeAction, (state: Practice) => Step<Practice>>> = {
  'start-pause': startOrPause,
  clean: (state) => mark(state, 'clean'),
  tense: (state) => mark(state, 'tense'),
  missed: (state) => mark(state, 'missed'),
  undo,
  faster: (state) => nudge(state, 1),
  slower: (state) => nudge(state, -1),
  drone: drone('drone'),
  'drone-up': drone('drone-up'),
  'drone-down': drone('drone-down'),
  'drone-home': drone('drone-home'),
  model: toggleModel,
};

export const isPracticeAction = (action: string): action is PracticeAction => Object.hasOwn(ACTIONS, action);

export const doAction = (state: Practice, action: PracticeAction): Step<Practice> => ACTIONS[action](state);
