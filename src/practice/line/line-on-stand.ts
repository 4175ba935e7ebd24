/** The state of one line being worked at, and the events that move it; `line-state` says what follows from it. */
import type { LadderEntry } from '../../diary/entry.ts';
import type { Line, KeyName } from '../../ladder/line.ts';
import type { Climb } from '../../ladder/rule/climb.ts';
import type { Expectation } from '../../ladder/speed/clean-expected.ts';
import type { Mark } from '../../ladder/rule/ladder-rule.ts';
import type { Way } from '../../ladder/wall/ways-round.ts';
import type { Bpm, Seconds } from '../../common/units.ts';
import type { Drill } from '../../music/tongue/drill.ts';
import type { Drone, SoundReport, Span } from '../../music/sound/sound-commands.ts';
import { type CueState, NO_CUE } from '../../plan/ease/cues.ts';
import type { BlockDrone, Exercise } from '../../plan/routine/exercise.ts';
import type { Fingering } from '../../plan/rotation/turn.ts';
import { type DroneAction, type DroneOnStand, droneAtFirst } from './drone-on-stand.ts';

/**
 * ready: nothing has sounded yet. stopped: the player paused.
 * breathing: the bars after a repetition. waiting: those are over and the mark is still due.
 */
export type Phase = 'ready' | 'count-in' | 'slow' | 'playing' | 'breathing' | 'waiting' | 'stopped';

/** Where the sound is, as heard. */
export interface Heard {
  readonly span: string;
  readonly bar: number;
  readonly beat: number;
  readonly beatsInBar: number;
}

/** A repetition that was played (or is being played) and may still be marked. */
interface Repetition {
  readonly bpm: Bpm;
  /** A verdict given before its end; it counts at the end. */
  readonly early: Mark | null;
}

/** A way round a wall, and how far it has come. */
interface WayPlayed {
  readonly way: Way;
  readonly wall: Bpm;
  /** Which passage, and how many of its repetitions were heard. */
  readonly at: number;
  readonly done: number;
}

/** What was asked to be kept and is not yet on disk. 'tempo under way': what comes next sounds already. */
type Awaited = 'mark' | 'mark of the one before' | 'mark by rule' | 'tempo' | 'tempo under way' | 'undo';

/** 'held': enough clean ones in a row, and the ladder stays: on its top rung, or where its rule aims at a share. */
export type Outcome = Mark | 'climbed' | 'fallen' | 'held' | 'taken back';

export interface Happened {
  readonly outcome: Outcome;
  /** Missed ones in a row after a missed one, else clean ones. */
  readonly run: number;
  /** How many in a row move the ladder. */
  readonly of: number;
  /** The ladder's tempo from now on. */
  readonly bpm: Bpm;
  /** When the key came. */
  readonly during: Phase;
}

export interface Practice extends DroneOnStand {
  readonly exercise: Exercise;
  readonly line: Line;
  /** The key it is written in: the line's own, unless all keys share one ladder. */
  readonly key: KeyName;
  readonly fingering: Fingering;
  /** Where the ladder stood when the line was put on the stand. */
  readonly opened: Climb;
  /** What a rule that aims goes by, as it was when the line was opened; absent where marks in a row are counted. */
  readonly expectation?: Expectation;
  /** This sitting's marks and tempos by hand, oldest first; what was taken back is gone. */
  readonly kept: readonly LadderEntry[];
  readonly phase: Phase;
  readonly heard: Heard | null;
  /** The chain of spans last asked for; a report about any other is stale. */
  readonly chain: readonly Span[];
  /** Counts the spans of this sitting, so that each has a name of its own. */
  readonly serial: number;
  /** Bars of repetitions that have begun to sound, by which silent bars are counted. */
  readonly barsBegun: number;
  /** The repetition whose mark is due; null once marked or before the first. */
  readonly due: Repetition | null;
  /**
   * Where repetitions run on: the one before the one that sounds, as long as its mark is still due. The next mark is
   * its; it has time until the one that sounds has ended.
   */
  readonly before: Repetition | null;
  /** Repetitions of this sitting that passed without a mark. */
  readonly unmarked: number;
  readonly awaited: Awaited | null;
  /** What the last key came to, until the next repetition begins; null where there is nothing to tell. */
  readonly happened: Happened | null;
  /** What the block says of its drone. */
  readonly blockDrone?: BlockDrone;
  /** Whether the pattern is played along as a model. */
  readonly model: boolean;
  /** The pattern written out with its tonguing; null for the player's own material. */
  readonly drill: Drill | null;
  /** What there was to say when the line was opened, until the first repetition. */
  readonly remark: string | null;
  /** The way round a wall being played; null on the ladder. */
  readonly way: WayPlayed | null;
  /** Reminders about ease, one at a time in a breathing bar. */
  readonly cueing: CueState;
  /** Repetitions heard in this sitting, in time. */
  readonly played: Seconds;
}

/** What the player can do here with one key. */
export type PracticeAction =
  'start-pause' | 'clean' | 'tense' | 'missed' | 'undo' | 'faster' | 'slower' | 'model' | DroneAction;

export type PracticeEvent =
  | { readonly type: 'do'; readonly action: PracticeAction }
  | { readonly type: 'sound'; readonly report: SoundReport }
  /** A mark or a tempo of this line is on disk. */
  | { readonly type: 'marked'; readonly entry: LadderEntry }
  /** What was kept under this id counts no more. */
  | { readonly type: 'taken back'; readonly of: string }
  | { readonly type: 'not-kept' };

/** What is known of a line when it is opened. */
export interface Opening {
  readonly exercise: Exercise;
  readonly line: Line;
  readonly key: KeyName;
  readonly fingering: Fingering;
  /** Where its ladder stands. */
  readonly climb: Climb;
  /** What a rule that aims goes by; absent where marks in a row are counted. */
  readonly expectation?: Expectation;
  readonly drone: Drone;
  readonly drill: Drill | null;
  readonly blockDrone?: BlockDrone;
  /** What the player should know about how it is written, or null. */
  readonly remark: string | null;
}

/** A line on the stand, silent. A tempo that is not on the ladder becomes a rung of it. */
export const openPractice = ({ climb, ...opening }: Opening): Practice => ({
  ...opening,
  opened: climb,
  kept: [],
  phase: 'ready',
  heard: null,
  chain: [],
  serial: 0,
  barsBegun: 0,
  due: null,
  before: null,
  unmarked: 0,
  awaited: null,
  happened: null,
  droneState: droneAtFirst(opening.exercise, opening.blockDrone),
  droneStep: 0,
  model: false,
  way: null,
  cueing: NO_CUE,
  played: 0,
});
