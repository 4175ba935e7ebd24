/** The whole program as one state: what lies on the stand, which screen shows, what the sound is doing. */
import { type LineHistory, climbOf } from '../ladder/history.ts';
import { type Exercise, type Line, lineId } from '../plan/exercise.ts';
import { type Choice, FIRST, chosen, lineChosen, moveArticulation, moveKey, moveRow } from './choice.ts';
import { decide } from './decide.ts';
import {
  type Effect, type Opening, type Practice, type PracticeAction, type PracticeEvent, type Step, openPractice,
} from './practice.ts';
import { sound } from './steps.ts';

export type TodayAction = 'up' | 'down' | 'key-before' | 'key-after' | 'articulation' | 'open';
export type Action = PracticeAction | TodayAction | 'back' | 'help' | 'leave' | 'suspend';

export interface Output {
  readonly state: 'sounding' | 'silent';
  readonly sentence: string;
}

export interface Stand {
  readonly screen: 'today' | 'practice';
  readonly help: boolean;
  /** The player's own day, 'YYYY-MM-DD'. */
  readonly day: string;
  readonly exercises: readonly Exercise[];
  /** What the journal knows of each line, by `lineId`. */
  readonly lines: Readonly<Record<string, LineHistory>>;
  readonly choice: Choice;
  readonly practice: Practice | null;
  readonly output: Output | null;
  /** What was found on opening that the player should know, a sentence each. */
  readonly notices: readonly string[];
  readonly leaving: boolean;
  /** What putting a line on the stand needs besides its history. */
  readonly prepare: Prepare;
}

/** Pure: the drone of the key and the notes of the pattern, for the player's instrument. */
export type Prepare = (exercise: Exercise, line: Line) => Pick<Opening, 'drone' | 'notes'>;

export type StandEvent =
  | { readonly type: 'do'; readonly action: Action }
  | Exclude<PracticeEvent, { type: 'do' }>
  /** What the journal now knows of a line, after something was stored; null where it knows nothing any more. */
  | { readonly type: 'line'; readonly id: string; readonly history: LineHistory | null };

export type StandStep = Step<Stand>;

export const openStand = (given: Pick<Stand, 'day' | 'exercises' | 'lines' | 'prepare' | 'notices'>): Stand => ({
  ...given,
  screen: 'today',
  help: false,
  choice: FIRST,
  practice: null,
  output: null,
  leaving: false,
});

/** Put a line on the stand, at a tempo of the player's or where it was left. */
export function putOnStand(stand: Stand, exercise: Exercise, line: Line, tempo: number | null): Stand {
  const history = stand.lines[lineId(line)];
  const climb = history ? climbOf(history) : null;
  const practice = openPractice({ exercise, line, climb, tempo, ...stand.prepare(exercise, line) });
  return { ...stand, screen: 'practice', practice };
}

const still = (state: Stand): StandStep => ({ state, effects: [] });

function openChosen(stand: Stand): Stand {
  const exercise = chosen(stand.choice, stand.exercises);
  return exercise ? putOnStand(stand, exercise, lineChosen(stand.choice, exercise), null) : stand;
}

function withChoice(stand: Stand, move: (choice: Choice, exercise: Exercise) => Choice): Stand {
  const exercise = chosen(stand.choice, stand.exercises);
  return exercise ? { ...stand, choice: move(stand.choice, exercise) } : stand;
}

const TODAY: Readonly<Record<TodayAction, (stand: Stand) => Stand>> = {
  up: (stand) => ({ ...stand, choice: moveRow(stand.choice, -1, stand.exercises) }),
  down: (stand) => ({ ...stand, choice: moveRow(stand.choice, 1, stand.exercises) }),
  'key-before': (stand) => withChoice(stand, (choice, exercise) => moveKey(choice, -1, exercise)),
  'key-after': (stand) => withChoice(stand, (choice, exercise) => moveKey(choice, 1, exercise)),
  articulation: (stand) => withChoice(stand, (choice, exercise) => moveArticulation(choice, 1, exercise)),
  open: openChosen,
};

const isTodayAction = (action: Action): action is TodayAction => action in TODAY;

/** Silence, drone included. */
const SILENCE: readonly Effect[] = [sound({ ask: 'stop' }), sound({ ask: 'drone', drone: null })];

const leave = (stand: Stand): StandStep => ({ state: { ...stand, leaving: true }, effects: SILENCE });

const back = (stand: Stand): StandStep => ({
  state: { ...stand, screen: 'today', practice: null },
  effects: SILENCE,
});

function toPractice(stand: Stand, event: PracticeEvent): StandStep {
  if (!stand.practice) return still(stand);
  const { state: practice, effects } = decide(stand.practice, event);
  return { state: { ...stand, practice }, effects };
}

function doAction(stand: Stand, action: Action): StandStep {
  if (action === 'leave') return leave(stand);
  if (action === 'help') return still({ ...stand, help: !stand.help });
  if (stand.help) return still({ ...stand, help: false });
  if (action === 'back') return back(stand);
  if (isTodayAction(action)) return still(TODAY[action](stand));
  // Putting the program to sleep is the terminal's business, not the stand's.
  if (action === 'suspend') return still(stand);
  return toPractice(stand, { type: 'do', action });
}

function withHistory(stand: Stand, id: string, history: LineHistory | null): Stand {
  const { [id]: _, ...others } = stand.lines;
  return { ...stand, lines: history ? { ...others, [id]: history } : others };
}

/** The one door of the program: what an event makes of the stand, and what is to be done outside. */
export function onEvent(stand: Stand, event: StandEvent): StandStep {
  if (event.type === 'do') return doAction(stand, event.action);
  if (event.type === 'sound' && event.report.tell === 'output') {
    const { state, sentence } = event.report;
    return still({ ...stand, output: { state, sentence } });
  }
  if (event.type === 'line') return still(withHistory(stand, event.id, event.history));
  return toPractice(stand, event);
}
