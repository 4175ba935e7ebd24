/** The state of one line being worked at, the events that move it, and what it asks the outside to do. */
import type { Unstamped, DayEntry, UndoEntry } from '../../diary/entry.ts';
import { type KeyName, type Line } from '../../ladder/line.ts';
import type { Climb } from '../../ladder/rule/climb.ts';
import type { LadderRule, Mark } from '../../ladder/rule/ladder-rule.ts';
import { type Rungs, rungsOf } from '../../ladder/rule/rungs.ts';
import type { Way } from '../../ladder/wall/ways-round.ts';
import type { Drill } from '../../music/tongue/drill.ts';
import type { Drone, SoundCommand, SoundReport, SoundedNote, Span } from '../../music/sound/sound-commands.ts';
import type { Bpm, Gain, Seconds } from '../../common/units.ts';
import { type Cueing, NO_CUE } from '../../plan/ease/cues.ts';
import type { Exercise } from '../../plan/routine/exercise.ts';
import { lineRule } from '../../plan/rotation/multiple-tonguing-steps.ts';
import type { Turn } from '../../plan/rotation/key-rotation.ts';

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
export interface Repetition {
  readonly bpm: Bpm;
  /** A verdict given before its end; it counts at the end. */
  readonly early: Mark | null;
}

/** One mark of this sitting, with the ladder as it was before it, so that undoing is exact. */
export interface Done {
  readonly id: string;
  readonly mark: Mark | null;
  readonly bpm: Bpm;
  readonly before: Climb;
}

export interface Practice {
  readonly exercise: Exercise;
  readonly line: Line;
  /** The key it is written in: the line's own, unless all keys share one ladder. */
  readonly key: KeyName;
  readonly fingering: Turn['fingering'];
  readonly rule: LadderRule;
  readonly rungs: Rungs;
  readonly climb: Climb;
  readonly phase: Phase;
  readonly heard: Heard | null;
  /** The chain of spans last asked for; a report about any other is stale. */
  readonly chain: readonly Span[];
  /** Counts the spans of this sitting, so that each has a name of its own. */
  readonly serial: number;
  /** The repetition whose mark is due; null once marked or before the first. */
  readonly due: Repetition | null;
  /** What was asked to be written and is not yet on disk. */
  readonly saving: Saving | null;
  /** This sitting's marks and nudges, oldest first. */
  readonly done: readonly Done[];
  readonly droneOn: boolean;
  /** Whether the pattern is played along as a model. */
  readonly model: boolean;
  /** What the drone sounds like in this key, on or off. */
  readonly drone: Drone;
  readonly notes: readonly SoundedNote[];
  /** The pattern written out with its tonguing; null for the player's own material. */
  readonly drill: Drill | null;
  /** One sentence for the player about the last key, or null. */
  readonly hint: string | null;
  /** What there was to say when the line was opened, until the first repetition. */
  readonly remark: string | null;
  /** The way round a wall being played; null on the ladder. */
  readonly way: Walk | null;
  /** Reminders about ease, one at a time in a breathing bar. */
  readonly cueing: Cueing;
  /** Repetitions heard in this sitting, in time. */
  readonly played: Seconds;
}

/** A way round a wall, and how far it has come. */
export interface Walk {
  readonly way: Way;
  readonly wall: Bpm;
  /** Which passage, and how many of its repetitions were heard. */
  readonly at: number;
  readonly done: number;
  /** The line's own drill, to come back to. */
  readonly plain: Drill | null;
}

export type Saving =
  | {
      readonly what: 'mark';
      readonly mark: Mark;
      readonly bpm: Bpm;
      readonly by: 'player' | 'rule';
      readonly next: Climb;
    }
  /** `follows`: what comes next is already under way. */
  | { readonly what: 'tempo'; readonly next: Climb; readonly follows?: true }
  | { readonly what: 'undo'; readonly undone: Done };

/** What the player can do here with one key. */
export type PracticeAction =
  'start-pause' | 'clean' | 'tense' | 'missed' | 'undo' | 'faster' | 'slower' | 'drone' | 'model';

export type PracticeEvent =
  | { readonly type: 'do'; readonly action: PracticeAction }
  | { readonly type: 'sound'; readonly report: SoundReport }
  /** What was asked to be stored is on disk under this id. */
  | { readonly type: 'stored'; readonly id: string }
  | { readonly type: 'not-stored'; readonly sentence: string };

/** An entry without what only the outside knows: its id and its time. */
export type Draft =
  | {
      readonly kind: 'mark';
      readonly line: Line;
      readonly mark: Mark;
      readonly bpm: Bpm;
      readonly beat: string;
      readonly notesPerBeat: number;
      /** The key that sounds, where all keys share the line. */
      readonly sounded?: string;
      readonly cleanUp: number;
      readonly missedDown: number;
      readonly next: Bpm;
      readonly by: 'player' | 'rule';
    }
  | { readonly kind: 'tempo'; readonly line: Line; readonly next: Bpm }
  | { readonly kind: 'undo'; readonly line: Line; readonly of: string };

export type Effect =
  | { readonly type: 'sound'; readonly command: SoundCommand }
  | { readonly type: 'store'; readonly draft: Draft }
  /** Something about the day, a block or a reading, to be kept. */
  | { readonly type: 'record'; readonly record: Unstamped<DayEntry | UndoEntry> }
  /** Kept in the settings file. */
  | { readonly type: 'set'; readonly volume: { readonly click: Gain; readonly drone: Gain } };

export interface Step<State> {
  readonly state: State;
  readonly effects: readonly Effect[];
}

/** What is known of a line when it is opened. */
export interface Opening {
  readonly exercise: Exercise;
  readonly line: Line;
  readonly key: KeyName;
  readonly fingering: Turn['fingering'];
  /** Where its ladder stands. */
  readonly climb: Climb;
  readonly drone: Drone;
  readonly notes: readonly SoundedNote[];
  readonly drill: Drill | null;
  /** What the player should know about how it is written, or null. */
  readonly remark: string | null;
}

/** A line on the stand, silent. A tempo that is not on the ladder becomes a rung of it. */
export function openPractice(opening: Opening): Practice {
  const { exercise, line, key, fingering, climb, drone, notes, drill, remark } = opening;
  const extra = [climb.bpm, ...(climb.best === null ? [] : [climb.best])];
  const rule = lineRule(exercise, line.articulation);
  return {
    exercise,
    line,
    key,
    fingering,
    drone,
    notes,
    drill,
    climb,
    rule,
    rungs: rungsOf(rule, extra),
    phase: 'ready',
    heard: null,
    chain: [],
    serial: 0,
    due: null,
    saving: null,
    done: [],
    droneOn: exercise.drone !== undefined,
    model: false,
    hint: null,
    remark,
    way: null,
    cueing: NO_CUE,
    played: 0,
  };
}

/** Whether sound is running. */
export const isRunning = (practice: Practice): boolean => practice.phase !== 'ready' && practice.phase !== 'stopped';
