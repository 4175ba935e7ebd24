/** The whole program as one state: what lies on the stand, which screen shows, what the sound is doing. */
import type { OfferedWay } from '../ladder/wall/ways-that-helped.ts';
import type { DayEntry, UndoEntry } from '../diary/entry.ts';
import { type KeyName, type Line } from '../ladder/line.ts';
import type { Wall } from '../ladder/wall/wall.ts';
import type { Knowledge, LineEstimate, PlayedLine } from '../ladder/speed/speed-knowledge.ts';
import type { Exercise } from '../plan/routine/exercise.ts';
import type { Plan } from '../plan/today/plan-items.ts';

import type { Run } from '../plan/run/running-routine.ts';
import type { Drill } from '../music/tongue/drill.ts';
import type { Drone } from '../music/sound/sound-commands.ts';
import type { Bpm, Gain, Milliseconds, Seconds } from '../common/units.ts';
import type { Minutes, Routine } from '../plan/routine/routine.ts';
import { type Choice, FIRST } from './screens/line-choice.ts';
import type { Mark } from '../ladder/rule/ladder-rule.ts';
import type { Effect, Opening, Practice, PracticeAction, PracticeEvent, Step } from './line/line-on-stand.ts';

export interface Dials {
  readonly click: Gain;
  readonly drone: Gain;
  /** How much later than assumed the player hears the click; `standside tap` measures it. */
  readonly tapOffset: Milliseconds;
}

export type DialAction = 'click-softer' | 'click-louder' | 'drone-softer' | 'drone-louder';

export interface Ways {
  /** Null where the player asks for a way without a wall. */
  readonly wall: Wall | null;
  readonly bpm: Bpm;
  readonly offers: readonly OfferedWay[];
  readonly row: number;
}

/** 'block' is a block without a ladder; 'end' is the end of a sitting. */
export type Screen = 'today' | 'exercises' | 'practice' | 'block' | 'end' | 'ways' | 'weeks' | 'settings';

export type ListAction = 'up' | 'down' | 'open';
export type ExercisesAction = 'key-before' | 'key-after' | 'articulation';
export type TodayAction = 'more-time' | 'less-time' | 'type-time' | 'order' | 'routine' | 'exercises' | 'go-on';
export type SittingAction =
  | 'play-block'
  | 'pause-block'
  | 'next-block'
  | 'longer'
  | 'skip-block'
  | 'swap-block'
  | 'block-before'
  | 'breath'
  | 'tension'
  | 'note';
export type Action =
  | 'way'
  | 'weeks'
  | 'settings'
  | DialAction
  | PracticeAction
  | SittingAction
  | ListAction
  | ExercisesAction
  | TodayAction
  | 'back'
  | 'help'
  | 'leave'
  | 'suspend';

export interface Output {
  readonly state: 'sounding' | 'silent';
  readonly sentence: string;
}

/** The key of a block without a ladder: its drone, and its notes if it has a pattern. */
export interface Tone {
  readonly line: Line;
  readonly drone: Drone;
  readonly drill: Drill | null;
  readonly on: boolean;
}

/** What the Today screen has worked out. */
export interface Day {
  /** Which of the routines. */
  readonly routine: number;
  readonly minutes: Minutes;
  /** Figures of the minutes that are being typed; empty between. */
  readonly typed: string;
  readonly typedAt: Seconds;
  readonly order: Plan['order'] | null;
  /** Null where there is no routine. */
  readonly plan: Plan | null;
  /** The item under the finger. */
  readonly row: number;
}

export interface Stand {
  readonly screen: Screen;
  readonly help: boolean;
  /** The player's own day, 'YYYY-MM-DD'. */
  readonly today: string;
  readonly routines: readonly Routine[];
  readonly exercises: readonly Exercise[];
  /** What the journal knows of each line, by `lineName`. */
  readonly lines: Readonly<Record<string, PlayedLine>>;
  /** What the marks say about speed; null until it is asked for. */
  readonly knowledge: Knowledge | null;
  /** The speed estimate of the line on the stand. */
  readonly estimate: LineEstimate | null;
  /** The wall that line was in front of when it was put there. */
  readonly wall: Wall | null;
  /** What the journal says of blocks, readings and notes, oldest first. */
  readonly records: readonly DayEntry[];
  readonly day: Day;
  readonly choice: Choice;
  readonly practice: Practice | null;
  /** The lines before the key changed by itself, so that their marks can still be taken back; the newest last. */
  readonly before: readonly Practice[];
  /** What came round and is kept as soon as it is played: looking at it uses nothing up. */
  readonly toKeep: readonly Effect[];
  /** Every mark of this sitting, over all lines. */
  readonly marks: readonly Mark[];
  /** The routine being played; null outside a sitting. */
  readonly run: Run | null;
  /** What a block without a ladder sounds and shows; null where it has neither key nor notes. */
  readonly tone: Tone | null;
  readonly dials: Dials;
  /** How many seconds of the blocks' clock pass in one. */
  readonly clockRate: number;
  /** How many lines down a long screen is. */
  readonly scrolled: number;
  /** Ways round a wall to choose from; null when none are shown. */
  readonly ways: Ways | null;
  /** The note being written; null when none is. */
  readonly note: string | null;
  readonly output: Output | null;
  /** What was found on opening that the player should know, a sentence each. */
  readonly notices: readonly string[];
  /** Sound level at the player's ear in dB(A), as they measured it; absent or null when they did not. */
  readonly level?: number | null;
  readonly leaving: boolean;
  /** What putting a line on the stand needs besides its history. */
  readonly prepare: Prepare;
}

/** Pure: the drone of the key and the notes of the pattern, for the player's instrument. */
export type Prepare = (exercise: Exercise, line: Line) => Pick<Opening, 'drone' | 'notes' | 'drill' | 'remark'>;

export type StandEvent =
  /** `key` is the name of the key that was pressed, `now` the monotonic time. */
  | { readonly type: 'do'; readonly action: Action; readonly key: string; readonly now: Seconds }
  /** Comes once a second while a routine runs. */
  | { readonly type: 'tick'; readonly now: Seconds }
  /** A new day has begun while nothing was being played. */
  | { readonly type: 'day'; readonly today: string }
  /** A record of the day is on disk. */
  | { readonly type: 'recorded'; readonly record: DayEntry | UndoEntry }
  | Exclude<PracticeEvent, { type: 'do' }>
  /** What the journal now knows of a line, after something was stored; null where it knows nothing any more. */
  | { readonly type: 'line'; readonly id: string; readonly history: PlayedLine | null }
  /** All that the marks say, worked out while the player was looking at Today. */
  | { readonly type: 'learnt'; readonly knowledge: Knowledge };

export type StandStep = Step<Stand>;

export type Given = Pick<
  Stand,
  'level' | 'today' | 'routines' | 'exercises' | 'lines' | 'records' | 'prepare' | 'notices' | 'dials'
> &
  Partial<Pick<Stand, 'clockRate'>>;

/** Minutes that Today starts from. */
const USUAL_MINUTES: Minutes = 25;

export const openStand = (given: Given): Stand => ({
  clockRate: 1,
  ...given,
  knowledge: null,
  estimate: null,
  wall: null,
  screen: 'today',
  help: false,
  day: { routine: 0, minutes: USUAL_MINUTES, typed: '', typedAt: 0, order: null, plan: null, row: 0 },
  choice: FIRST,
  practice: null,
  before: [],
  toKeep: [],
  marks: [],
  run: null,
  tone: null,
  scrolled: 0,
  ways: null,
  note: null,
  output: null,
  leaving: false,
});

export const still = (state: Stand): StandStep => ({ state, effects: [] });

/** A line and the key it is written in. */
export interface Asked extends Partial<Pick<Opening, 'fingering'>> {
  readonly line: Line;
  readonly key: KeyName;
}
