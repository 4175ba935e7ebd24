/** The whole program as one state, in drawers: what is known, the running sitting or none, what shows, what sounds. */
import type { DayEntry, Entry, MarkEntry } from '../diary/entry.ts';
import type { ArticulationName, KeyName, Line } from '../ladder/line.ts';
import type { Knowledge, PlayedLine } from '../ladder/speed/speed-knowledge.ts';
import type { OfferedWay } from '../ladder/wall/ways-that-helped.ts';
import type { Bpm, Gain, Milliseconds, Seconds } from '../common/units.ts';
import type { Drill } from '../music/tongue/drill.ts';
import type { Place } from '../music/pitch/registers.ts';
import type { SoundReport } from '../music/sound/sound-commands.ts';
import type { BlockDrone, Exercise } from '../plan/routine/exercise.ts';
import type { Minutes, Routine } from '../plan/routine/routine.ts';
import type { Run } from '../plan/run/running-routine.ts';
import type { Field } from '../plan/own/own-form.ts';
import type { Plan } from '../plan/today/plan-items.ts';
import type { PlayedBefore } from '../plan/today/played-before.ts';
import type { DroneOnStand } from './line/drone-on-stand.ts';
import type { Action } from './actions.ts';
import type { Opening, Practice } from './line/line-on-stand.ts';
import { type ChangedSettings, DEFAULT_SETTINGS, type Settings, type SettingsAt } from './settings.ts';
import { type Choice, FIRST } from './screens/line-choice.ts';
import type { Draft, OwnAnswer } from './screens/own-asked.ts';
import { FIRST_PAGE, type WeeksPlace } from './weeks/weeks-place.ts';
import type { Effect, Step } from './step.ts';

/** How loud the click and the drone are, and how far the picture waits. */
export interface Dials {
  readonly click: Gain;
  readonly drone: Gain;
  /** How much later than assumed the player hears the click; `standside lag` measures it. */
  readonly tapOffset: Milliseconds;
}

export type * from './actions.ts';

export interface Output {
  readonly state: 'sounding' | 'silent';
  readonly sentence: string;
}

/** All that is known of the player, the day and the material. */
export interface KnownSoFar {
  /** The player's own day, 'YYYY-MM-DD'. */
  readonly today: string;
  readonly routines: readonly Routine[];
  readonly exercises: readonly Exercise[];
  /** Routine files of the player's own, without their endings: their exercises can be changed on the screen. */
  readonly own: readonly string[];
  /** What is wrong with the routine files, a sentence each. */
  readonly troubles: readonly string[];
  /** What the journal knows of each line, by `lineName`. */
  readonly lines: Readonly<Record<string, PlayedLine>>;
  /** What the lines say about speed, remembered because it costs; null until it is asked for. */
  readonly knowledge: Knowledge | null;
  /** What the journal says of blocks, readings and notes, oldest first. */
  readonly records: readonly DayEntry[];
  /** Sound level at the player's ear in dB(A), as they measured it; null when they did not. */
  readonly level: number | null;
  /** What putting a line on the stand needs besides its history. */
  readonly prepare: Prepare;
}

/** Pure: the drone of the key and the notes of the pattern, for the player's instrument. */
export type Prepare = (
  exercise: Exercise,
  line: Line,
  /** Where a block has it played; where the exercise says when absent. */
  place?: Place | undefined,
  blockDrone?: BlockDrone,
) => Pick<Opening, 'drone' | 'drill' | 'remark'>;

/** The routine files, as they are read. */
export type ReadAnew = Pick<KnownSoFar, 'routines' | 'exercises' | 'own' | 'prepare' | 'troubles'>;

/** What the Today screen has worked out. */
export interface Day {
  /** Which of the routines. */
  readonly routine: number;
  /** Whether it is the list by hand that shows, where there is one. */
  readonly byHand: boolean;
  readonly minutes: Minutes;
  /** The part that alone is to be played, or TO_COME for those that nothing was played of; null for all. */
  readonly part: string | null;
  /** Figures of the minutes that are being typed; empty between. */
  readonly typed: string;
  readonly typedAt: Seconds;
  readonly order: Plan['order'] | null;
  /** Null where there is no routine. */
  readonly plan: Plan | null;
  /** What had been played when the plan was made; null before the first. */
  readonly since: PlayedBefore | null;
  /** The item under the finger. */
  readonly row: number;
}

/** The routine being played. */
export interface Sitting {
  readonly run: Run;
}

/** A line on the stand, with those before it. */
export interface Work {
  readonly practice: Practice;
  /** The lines before the key changed by itself, so that their marks can still be taken back; the newest last. */
  readonly before: readonly Practice[];
  /** What came round and is kept as soon as it is played: looking at it uses nothing up. */
  readonly toKeep: readonly Effect[];
  /** Turns that the player passed over since the last mark: another draw brings others first. */
  readonly passed: readonly string[];
  /** The way that was under the finger when the list was last left. */
  readonly wayLookedAt?: string;
}

/** Ways round a wall to choose from. */
export interface Ways {
  readonly bpm: Bpm;
  readonly offers: readonly OfferedWay[];
  readonly row: number;
}

/** The cell under the finger: its place among the keys and among the ways of tonguing, as they come round. */
export interface GridPlace {
  readonly key: number;
  readonly articulation: number;
}

/** The key of a block without a ladder: its drone, and its notes if it has a pattern. */
export interface Tone extends DroneOnStand {
  readonly line: Line;
  readonly drill: Drill | null;
  readonly toKeep: readonly Effect[];
}

/** What shows, with what it needs. 'block' is a block without a ladder; 'end' is the end of a sitting. */
export type View =
  | { readonly screen: 'today' }
  /** What the player is asked once: what they play, what to begin with, how many minutes. */
  | {
      readonly screen: 'first';
      readonly asks: 'instrument' | 'routine' | 'minutes';
      /** Letters that the instrument is found by. */
      readonly typed: string;
      /** Which of those that were found. */
      readonly instrument: number;
      /** Which of those for the instrument; the last is a list of one's own. */
      readonly routine: number;
      readonly minutes: Minutes;
    }
  | { readonly screen: 'exercises' }
  /** An exercise of the player's own being written; `asks` while it is to be left with something typed. */
  | ({
      readonly screen: 'form';
      readonly at: Field;
      /** Letters before it. */
      readonly cursor: number;
      readonly asks: boolean;
      readonly from: 'today' | 'exercises' | 'list';
    } & Draft)
  /** Today's list by hand, or a thing that is looked for to be put at the end of the running sitting. */
  | {
      readonly screen: 'list';
      readonly doing: 'order' | 'find' | 'name';
      /** The thing under the finger. */
      readonly row: number;
      /** What was typed to find something, or as the list's name. */
      readonly typed: string;
      /** Which of those that were found. */
      readonly found: number;
      /** The day that was taken up last; null where none was. */
      readonly asOn: string | null;
      /** What showed before in the sitting, to go back to; null outside one. */
      readonly under: View | null;
    }
  | { readonly screen: 'practice'; readonly work: Work }
  | { readonly screen: 'ways'; readonly work: Work; readonly ways: Ways }
  /** The grid of keys and ways of tonguing, to choose a cell of; what sounds sounds on. */
  | { readonly screen: 'grid'; readonly work: Work; readonly at: GridPlace }
  /** `tone` is null where the block has neither key nor notes. */
  | { readonly screen: 'block'; readonly tone: Tone | null }
  /** `note` is the one being written; null when none is. */
  | { readonly screen: 'end'; readonly note: string | null }
  | ({ readonly screen: 'weeks' } & WeeksPlace)
  /** `from`: the list that it was opened from, where that is not Today. */
  | { readonly screen: 'settings'; readonly from?: 'exercises'; readonly at?: SettingsAt };

export type Screen = View['screen'];

/** Screens where one types; the others are pictures. */
export type FormScreen = 'form' | 'list';
export type PictureScreen = Exclude<Screen, FormScreen>;

/** The answer to the last key: until the next one, the next repetition, or its time is over. */
export interface Answer {
  readonly sentence: string;
  readonly since: Seconds;
}

export interface Stand {
  readonly known: KnownSoFar;
  readonly day: Day;
  readonly choice: Choice;
  /** Where in the weeks one was, kept while other screens show. */
  readonly weeks: WeeksPlace;
  readonly view: View;
  readonly help: boolean;
  /** What was typed of an exercise and is not kept yet; null where nothing was. */
  readonly draft: Draft | null;
  /** Null outside a sitting. */
  readonly sitting: Sitting | null;
  /** Every mark since the sitting or the program began, over all lines; what was taken back is gone. */
  readonly marks: readonly MarkEntry[];
  readonly dials: Dials;
  readonly settings: Settings;
  readonly output: Output | null;
  readonly answer: Answer | null;
  /** Monotonic time of the last key. */
  readonly now: Seconds;
  /** What was found on opening that the player should know, a sentence each. */
  readonly notices: readonly string[];
  /** How many seconds of the blocks' clock pass in one. */
  readonly clockRate: number;
  readonly leaving: boolean;
}

/** What the journal now knows of a line, after something was kept; null where it knows nothing any more. */
export interface LineKnown {
  readonly name: string;
  readonly history: PlayedLine | null;
}

export type StandEvent =
  /** `key` is the name of the key that was pressed, `now` the monotonic time. */
  | { readonly type: 'do'; readonly action: Action; readonly key: string; readonly now: Seconds }
  /** Comes about once a second. */
  | { readonly type: 'tick'; readonly now: Seconds }
  /** A new day has begun while nothing was being played. */
  | { readonly type: 'day'; readonly today: string }
  | { readonly type: 'sound'; readonly report: SoundReport }
  /** Something is on disk: the entry, and what is now known of the line it belongs to. */
  | { readonly type: 'kept'; readonly entry: Entry; readonly line: LineKnown | null }
  /** Nothing was kept; the sentence says why. */
  | { readonly type: 'not-kept'; readonly sentence: string }
  /** The program is put to sleep: whatever runs or sounds stops, whichever screen shows. */
  | { readonly type: 'rest'; readonly now: Seconds }
  /** The routine files were read again: something in them has changed. */
  | { readonly type: 'read'; readonly read: ReadAnew }
  /** What came of what was asked of the player's own files. */
  | { readonly type: 'own'; readonly answer: OwnAnswer }
  /** Settings that could not be kept, as they were before, and why. */
  | { readonly type: 'not-set'; readonly before: ChangedSettings; readonly sentence: string }
  /** All that the marks say, worked out while the player was looking at Today. */
  | { readonly type: 'learnt'; readonly knowledge: Knowledge };

export type StandStep = Step<Stand>;

type Given = Omit<KnownSoFar, 'knowledge' | 'level' | 'own' | 'troubles'> &
  Pick<Stand, 'notices' | 'dials'> &
  Partial<Pick<Stand, 'clockRate' | 'draft' | 'settings'> & Pick<KnownSoFar, 'level' | 'own' | 'troubles'>>;

/** Minutes that Today starts from. */
export const USUAL_MINUTES: Minutes = 25;

export const openStand = ({
  notices,
  dials,
  clockRate = 1,
  level = null,
  own = [],
  troubles = [],
  draft = null,
  settings = DEFAULT_SETTINGS,
  ...known
}: Given): Stand => ({
  known: { ...known, level, own, troubles, knowledge: null },
  day: {
    routine: 0,
    byHand: false,
    part: null,
    minutes: settings.minutes ?? USUAL_MINUTES,
    typed: '',
    typedAt: 0,
    order: null,
    plan: null,
    since: null,
    row: 0,
  },
  choice: FIRST,
  weeks: FIRST_PAGE,
  view: { screen: 'today' },
  help: false,
  draft,
  sitting: null,
  marks: [],
  dials,
  settings,
  output: null,
  answer: null,
  now: 0,
  notices,
  clockRate,
  leaving: false,
});

/** A line and the key it is written in. */
export interface LineAsked extends Partial<Pick<Opening, 'fingering' | 'blockDrone'>> {
  readonly line: Line;
  readonly key: KeyName;
  /** Where a block has it played; where the exercise says when absent. */
  readonly place?: Place | undefined;
  /** Ways of tonguing that are played at one speed with it. */
  readonly together?: readonly ArticulationName[];
}

/** The line on the stand; null where none lies there. */
export const workOf = ({ view }: Pick<Stand, 'view'>): Work | null => ('work' in view ? view.work : null);

export const practiceOf = (stand: Pick<Stand, 'view'>): Practice | null => workOf(stand)?.practice ?? null;

/** The stand with its line changed; as it was where none lies there. */
export function withWork(stand: Stand, change: (work: Work) => Work): Stand {
  const { view } = stand;
  return 'work' in view ? { ...stand, view: { ...view, work: change(view.work) } } : stand;
}

export const withPractice = (stand: Stand, practice: Practice): Stand =>
  withWork(stand, (work) => ({ ...work, practice }));

export const withRun = (stand: Stand, run: Run): Stand => ({ ...stand, sitting: { ...stand.sitting, run } });
