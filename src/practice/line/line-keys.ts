/** What each of the player's keys does to the line on the stand. */
import { nudged } from '../../ladder/rule/climb.ts';
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import { type Effect, type Step, keep, sound, step } from '../step.ts';
import type { Practice, PracticeAction } from './line-on-stand.ts';
import { climbNow, isRunning, modelNotes, ruleOf, rungsNow, tempoNext } from './line-state.ts';
import { answer, keepMark } from './line-steps.ts';
import { cycle } from './repetition-cycle.ts';
import { withPlayed } from './time-played.ts';
import { takenBack } from './what-happened.ts';

export const droneEffect = ({ drone, droneState }: Practice): Effect =>
  sound({ ask: 'drone', drone: droneState === 'on' ? drone : null });

/** A drone that waited sounds again with the click. */
const wakeDrone = (state: Practice): Practice =>
  state.droneState === 'waits' ? { ...state, droneState: 'on' } : state;

function start(state: Practice): Step<Practice> {
  const fresh = wakeDrone({ ...state, due: null, happened: null });
  const chain = cycle(fresh, tempoNext(fresh));
  const counting = { ...fresh, phase: 'count-in' as const, chain: chain.spans, serial: chain.serial };
  const drone = fresh.droneState === state.droneState ? [] : [droneEffect(fresh)];
  return step(counting, ...drone, sound({ ask: 'play', spans: chain.spans }));
}

/** Pausing drops a repetition that was not finished; a finished one can still be marked. The drone waits. */
function pause(state: Practice): Step<Practice> {
  const finished = state.phase === 'breathing' || state.phase === 'waiting';
  const droneState = state.droneState === 'on' ? 'waits' : state.droneState;
  const stopped: Practice = { ...state, phase: 'stopped', heard: null, chain: [], droneState, happened: null };
  const silence = droneState === state.droneState ? [] : [droneEffect(stopped)];
  return step({ ...withPlayed(stopped, state), due: finished ? state.due : null }, sound({ ask: 'stop' }), ...silence);
}

/** Whatever sounds stops; a drone that sounded waits. */
export function hush(state: Practice): Step<Practice> {
  if (isRunning(state)) return pause(state);
  if (state.droneState !== 'on') return step(state);
  const silent: Practice = { ...state, droneState: 'waits' };
  return step(silent, droneEffect(silent));
}

const startOrPause = (state: Practice): Step<Practice> => (isRunning(state) ? pause(state) : start(state));

function mark(state: Practice, verdict: Mark): Step<Practice> {
  if (state.awaited) return step(state);
  if (!state.due) return answer(state, whyNoMark(state));
  if (state.phase !== 'playing' || verdict === 'missed') return keepMark(state, verdict, state.due.bpm, 'player');
  return step({ ...state, due: { ...state.due, early: verdict } });
}

function whyNoMark(state: Practice): string {
  if (state.way) return 'Marks do not count on a way round a wall; v goes back to the ladder.';
  if (!isRunning(state)) return 'Nothing to mark yet: space starts a repetition.';
  if (state.phase === 'breathing' || state.phase === 'waiting')
    return 'This repetition is marked; u takes the mark back.';
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
    return step({ ...state, due: { ...state.due, early: null }, happened });
  }
  const last = state.kept.at(-1);
  if (!last) return answer(state, 'Nothing to take back on this line.');
  return step({ ...state, awaited: 'undo' }, keep({ kind: 'undo', of: last.id }));
}

function toggleDrone(state: Practice): Step<Practice> {
  const toggled: Practice = { ...state, droneState: state.droneState === 'on' ? 'off' : 'on' };
  return step(toggled, droneEffect(toggled));
}

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
  drone: toggleDrone,
  model: toggleModel,
};

export const isPracticeAction = (action: string): action is PracticeAction => Object.hasOwn(ACTIONS, action);

export const doAction = (state: Practice, action: PracticeAction): Step<Practice> => ACTIONS[action](state);
