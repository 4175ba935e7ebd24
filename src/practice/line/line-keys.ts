/** What each of the player's keys does. */
import { nudged } from '../../ladder/rule/climb.ts';
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import { cycle } from './repetition-cycle.ts';
import { type Effect, type Practice, type PracticeAction, type Step, isRunning } from './line-on-stand.ts';
import { saveMark, sound, stay } from './line-steps.ts';
import { passageNow } from './way-being-played.ts';

export const droneEffect = ({ drone, droneOn }: Practice): Effect =>
  sound({ ask: 'drone', drone: droneOn ? drone : null });

/** An exercise over a drone begins with it; after that the player's key decides. */
const firstDrone = (state: Practice): readonly Effect[] =>
  state.phase === 'ready' && state.exercise.drone && state.droneOn ? [droneEffect(state)] : [];

function start(state: Practice): Step<Practice> {
  const fresh: Practice = { ...state, due: null };
  const chain = cycle(fresh, passageNow(fresh)?.bpm ?? fresh.climb.bpm);
  return {
    state: { ...fresh, phase: 'count-in', heard: null, chain: chain.spans, serial: chain.serial },
    effects: [...firstDrone(state), sound({ ask: 'play', spans: chain.spans })],
  };
}

/** Pausing drops a repetition that was not finished; a finished one can still be marked. */
function pause(state: Practice): Step<Practice> {
  const finished = state.phase === 'breathing' || state.phase === 'waiting';
  return {
    state: { ...state, phase: 'stopped', heard: null, chain: [], due: finished ? state.due : null },
    effects: [sound({ ask: 'stop' })],
  };
}

const startOrPause = (state: Practice): Step<Practice> => (isRunning(state) ? pause(state) : start(state));

function mark(state: Practice, verdict: Mark): Step<Practice> {
  if (state.saving) return stay(state);
  if (!state.due) return stay(state, whyNoMark(state));
  if (state.phase !== 'playing') return saveMark(state, verdict, state.due.bpm, 'player');
  if (verdict === 'missed') return saveMark(state, verdict, state.due.bpm, 'player');
  return { state: { ...state, due: { ...state.due, early: verdict } }, effects: [] };
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
  if (state.saving) return stay(state);
  if (state.way) return stay(state, 'A way round a wall has its own tempos; v goes back to the ladder.');
  const next = nudged(state.climb, by, state.rungs);
  if (next.bpm === state.climb.bpm) return stay(state, by > 0 ? 'This is the top rung.' : 'This is the lowest rung.');
  return {
    state: { ...state, saving: { what: 'tempo', next } },
    effects: [{ type: 'store', draft: { kind: 'tempo', line: state.line, next: next.bpm } }],
  };
}

function undo(state: Practice): Step<Practice> {
  if (state.saving) return stay(state);
  if (state.due?.early) return { state: { ...state, due: { ...state.due, early: null } }, effects: [] };
  const undone = state.done.at(-1);
  if (!undone) return stay(state, 'Nothing to take back in this sitting.');
  return {
    state: { ...state, saving: { what: 'undo', undone } },
    effects: [{ type: 'store', draft: { kind: 'undo', line: state.line, of: undone.id } }],
  };
}

function toggleDrone(state: Practice): Step<Practice> {
  const toggled: Practice = { ...state, droneOn: !state.droneOn };
  return { state: toggled, effects: [droneEffect(toggled)] };
}

const toggleModel = (state: Practice): Step<Practice> =>
  state.notes.length === 0
    ? stay(state, 'Only a pattern that is written out can be heard.')
    : stay(
        { ...state, model: !state.model },
        state.model
          ? 'You play alone from the next repetition.'
          : 'The pattern sounds softly from the next repetition.',
      );

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

export const isPracticeAction = (action: string): action is PracticeAction => action in ACTIONS;

export const doAction = (state: Practice, action: PracticeAction): Step<Practice> => ACTIONS[action](state);
