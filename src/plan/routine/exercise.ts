import type { Seconds } from '../../common/units.ts';
import type { ArticulationName, KeyName, Line } from '../../ladder/line.ts';
import type { LadderRule } from '../../ladder/rule/ladder-rule.ts';
import type { Meter } from '../../music/time/meter.ts';
import { pulsesIn } from '../../music/tongue/vibrato.ts';
import type { Place } from '../../music/pitch/registers.ts';
import type { Ratio } from '../../music/time/ratio.ts';
import type { DroneOctave } from '../../music/pitch/drone-place.ts';
import type { Click, Drone } from '../../music/sound/sound-commands.ts';

import type { Rotation } from '../rotation/key-rotation.ts';

/** What kind of work it is; the order is the usual order of a day. */
export const KINDS = ['body', 'sound', 'flexibility', 'technique', 'articulation', 'study', 'music'] as const;
export type Kind = (typeof KINDS)[number];

/** What a file says of a drone; what it leaves out is the player's to set. */
export interface DroneWanted extends Partial<Pick<Drone, 'voices' | 'tuning' | 'timbre'>> {
  readonly octave?: DroneOctave;
}

/** A breath from full lungs to full lungs: emptied, then a wait with nothing in them, then it comes back by itself. */
export interface EachBreath {
  readonly out: Seconds;
  readonly wait: Seconds;
  readonly back: Seconds;
}

/** What a block says of its drone: none, or one of its own; nothing leaves it to the exercise. */
export type BlockDrone = DroneWanted | 'no' | undefined;

/** Something to play: a reference to the player's own material, or a pattern the program writes out. */
export interface Exercise {
  /**
   * Under this the journal keeps it, and by this the command line calls it. Unique over all routines: its name, or
   * with its file where another file has the name first ('cornet-daily/five-notes').
   */
  readonly id: string;
  /** Its name in its own file: small letters, digits and hyphens. */
  readonly name: string;
  /** The file in which it is written, without its ending; another may include it. */
  readonly file: string;
  /** What its file says that it is to be kept under. */
  readonly history?: string;
  readonly title: string;
  readonly kind: Kind;
  /** What to get on the stand; null for a pattern that the screen shows. */
  readonly material: string | null;
  /** The hard spot in the player's own words: 'bars 9 to 12, low C sharp'. */
  readonly spot?: string;
  /** Minutes that a day's list by hand gives it; five where it says nothing. */
  readonly minutes?: number;
  /** No longer offered; what was played of it stays. */
  readonly retired?: boolean;
  /** For other instruments than the player's: offered only where it is asked for. */
  readonly elsewhere?: boolean;
  /** Scale degrees, e.g. '1 2 3 4 5 4 3 2 | 1'; null for the player's own material. */
  readonly pattern: string | null;
  /** The scale its degrees are counted in, e.g. 'major', 'harmonic minor', 'chromatic'. */
  readonly scale: string;
  readonly meter: Meter;
  /** Note value of the tempo's beat. */
  readonly beat: Ratio;
  /** Notes on each beat in the fast passages, for notes per second. */
  readonly notesPerBeat: number;
  /** Own material whose file says nothing of its notes: no speed in notes is claimed for it. */
  readonly notesUnknown?: boolean;
  /** Bars of one repetition. */
  readonly bars: number;
  /** Bars of breathing after it, in halves, 0 for none; the mark is due there. */
  readonly breathBars: number;
  /** Bars in halves. 0 counts in only at the start, for a new tempo and for a new key. */
  readonly countInBars: number;
  /** Whether repetitions follow on one another without a count-in while tempo and key stay. */
  readonly flow?: true;
  /** What happens when no mark comes. */
  readonly noMark: 'wait' | 'repeat' | 'clean';
  readonly keys: readonly KeyName[];
  readonly articulations: readonly ArticulationName[];
  readonly ladder: LadderRule;
  /** It says itself what moves its ladder; otherwise that is the player's to set for all of them. */
  readonly ownRule?: true;
  readonly click: Click;
  /** Short reminders about ease. */
  readonly cues: readonly string[];
  /** What each repetition is for, in a cycle: 'sing', 'sing and play', 'play'. None where it is absent. */
  readonly layers?: readonly string[];
  /** What moves the work on: marks on a ladder (when absent), breaths that are counted, or the block's clock alone. */
  readonly work?: 'ladder' | 'breaths' | 'clock';
  /** How many breaths, where they are counted. */
  readonly breaths?: number;
  /** How long each part of a breath lasts, where it is shown as a shape. */
  readonly eachBreath?: EachBreath;
  /** High, loud or fast enough that minutes of it are limited. */
  readonly highLoad?: boolean;
  /** The drone this exercise is played over from the start; the player may always switch one on. */
  readonly drone?: DroneWanted;
  /** Where on the instrument it belongs; where it is easiest when absent. */
  readonly place?: Place;
  /** How its keys and articulations come round, and after what; a new pair drawn for each block when absent. */
  readonly rotation?: Rotation;
}

/** Whether nothing may be claimed in notes a second: its file says nothing of its notes, and no pulses are counted. */
export const isSpeedUnknown = (exercise: Pick<Exercise, 'notesUnknown'>, articulation: ArticulationName): boolean =>
  exercise.notesUnknown === true && pulsesIn(articulation) === null;

/** The same by the line, of all exercises there are; of one that is gone its marks say it. */
export const speedUnknownIn =
  (exercises: ReadonlyMap<string, Exercise>) =>
  ({ exercise, articulation }: Line): boolean => {
    const one = exercises.get(exercise);
    return one !== undefined && isSpeedUnknown(one, articulation);
  };

/** Whether marks move it on a ladder; breaths that are counted and the block's clock know no tempo. */
export const hasLadder = ({ work }: Pick<Exercise, 'work'>): boolean => work === undefined || work === 'ladder';

const MOVED_BY = { breaths: 'breaths', clock: 'the clock', ladder: 'marks' } as const;

/** What to do with an exercise that has none. */
export const withoutLadder = ({ title, work = 'ladder' }: Exercise): string =>
  `${title} goes by ${MOVED_BY[work]}, not by a ladder; it is played in a block of Today.`;
