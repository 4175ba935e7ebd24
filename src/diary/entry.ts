/**
 * The one vocabulary of what happened: the plan reads it, practice says it, the journal keeps it. A line of the
 * journal is one of these as it is. The file is for ever: old versions are read by migrations, never rewritten.
 */
import type { Line } from '../ladder/line.ts';
import type { Mark } from '../ladder/rule/ladder-rule.ts';
import type { Bpm, Cents, Hertz, Seconds } from '../common/units.ts';

/** What the journal puts on everything that happened. */
export interface Stamp {
  /** Version of the entry's shape. */
  readonly v: 1;
  /** Unique and time-ordered (UUID version 7, RFC 9562): journals of two machines merge by it. */
  readonly id: string;
  /** Local date and time with offset, ISO 8601: '2026-11-25T18:04:09.123+01:00'. Nothing is measured with it. */
  readonly at: string;
  /** The player's own day, 'YYYY-MM-DD'; it may go on after midnight. */
  readonly day: string;
}

export interface MarkEntry extends Stamp, Line {
  readonly kind: 'mark';
  readonly mark: Mark;
  readonly bpm: Bpm;
  /** Note value of the beat, '1/4'. */
  readonly beat: string;
  readonly notesPerBeat: number;
  /**
   * What the rule asked for at that time, clean or missed repetitions in a row: a line can be recomputed from the
   * journal alone.
   */
  readonly cleanUp: number;
  readonly missedDown: number;
  /** The same of tense ones; absent where those only held the rung, as in entries from before there was such a rule. */
  readonly tenseDown?: number;
  /** The ladder's tempo after the rule was applied: the next repetition's, and where the line is left. */
  readonly next: Bpm;
  /** The key that sounded, where all keys of the exercise share one line. */
  readonly sounded?: string;
  /** Whether the player said it or the exercise's rule for no mark did. */
  readonly by: 'player' | 'rule';
}

/** The player moved the ladder by hand. */
export interface TempoEntry extends Stamp, Line {
  readonly kind: 'tempo';
  readonly next: Bpm;
}

/** Takes an earlier entry back; undoing an undo is marking again. */
export interface UndoEntry extends Stamp {
  readonly kind: 'undo';
  readonly of: string;
}

/** How a block stands. `going` is written once a minute, so that a power cut costs no more than that. */
export type BlockEvent = 'started' | 'going' | 'left' | 'done' | 'skipped';

/** What happened to one block of a routine. */
export interface BlockEntry extends Stamp {
  readonly kind: 'block';
  /** Ids, not places: a routine file may be edited between two sittings. */
  readonly routine: string;
  readonly part: string;
  readonly block: string;
  readonly event: BlockEvent;
  /** Played in this block so far today, by a clock that only runs forward. */
  readonly played: Seconds;
  /** How long the block is to last, with what the player added. */
  readonly length: Seconds;
  /** What was played: an exercise's id; null for a rest or a block without one. */
  readonly exercise: string | null;
}

/** 0 not at all, 4 very. */
export type TensionLevel = 0 | 1 | 2 | 3 | 4;

/** How tense the player felt after a block. */
export interface TensionEntry extends Stamp {
  readonly kind: 'tension';
  readonly level: TensionLevel;
  readonly exercise: string | null;
}

/** A free note of the player's. */
export interface NoteEntry extends Stamp {
  readonly kind: 'note';
  readonly text: string;
}

/** What came out of a pool: an exercise's id, or a key and articulation as 'Bb · double'. */
export interface DrawEntry extends Stamp {
  readonly kind: 'draw';
  readonly pool: string;
  readonly item: string;
  /** The player's key put it on the stand, and it has not been played: a sitting is gone on with there. */
  readonly laid?: true;
}

/**
 * A way round a wall was played, or left in the middle. Whether it helped is not written down: later marks
 * at the wall's tempo say it, and can still change it.
 */
export interface WayEntry extends Stamp, Line {
  readonly kind: 'way';
  /** Name of the way, as `ladder/wall/ways-round` has it: 'bursts', 'off-beats'. */
  readonly way: string;
  /** Tempo of the rung that the line kept falling from. */
  readonly wall: Bpm;
  readonly outcome: 'played' | 'left';
}

/** Stands for the id of a block where a sitting rests between two blocks. */
export const BREAK = 'break';

export interface PlannedItem {
  readonly part: string;
  /** A block's id, or BREAK. */
  readonly block: string;
  readonly length: Seconds;
  /** Played of the block earlier that day, before this sitting. */
  readonly before: Seconds;
  readonly exercise: string | null;
  /** What it is called, where neither a file nor an exercise says so. */
  readonly title?: string;
}

/** Stands for the id of a routine and of a part where the player put the items together by hand. */
export const BY_HAND = 'by-hand';

/** One thing of a day's list by hand. */
export interface ListItem {
  /** An exercise's id; null for something without one. */
  readonly exercise: string | null;
  /** What it was called then. */
  readonly title: string;
  readonly length: Seconds;
}

/** The day's list as the player put it together; the last one of a day is the one that counts. */
export interface ListEntry extends Stamp {
  readonly kind: 'list';
  readonly items: readonly ListItem[];
}

/** Something put at the end of a sitting while it ran. */
export interface AddedEntry extends Stamp {
  readonly kind: 'added';
  readonly routine: string;
  readonly item: PlannedItem;
}

/** What a sitting set out to do, so that it can be gone on with after an interruption. */
export interface PlanEntry extends Stamp {
  readonly kind: 'plan';
  readonly routine: string;
  readonly items: readonly PlannedItem[];
}

/** Where one written note lay, in cents from where it should be: medians, and how wide the middle half lies. */
export interface HeardTendency {
  readonly name: string;
  /** MIDI number of the written note. */
  readonly written: number;
  /** How often it was heard. */
  readonly notes: number;
  readonly cents: Cents;
  readonly beginning: Cents;
  readonly middle: Cents;
  readonly end: Cents;
  readonly spread: Cents;
}

/** What was heard of an exercise: numbers only. It moves no ladder and stands for no mark. */
export interface HeardEntry extends Stamp, Line {
  readonly kind: 'heard';
  readonly bpm: Bpm;
  /** Short name, as `music/pitch/instruments` has it: other instruments lie elsewhere. */
  readonly instrument: string;
  readonly tuning: 'just' | 'equal';
  readonly a4: Hertz;
  readonly notes: readonly HeardTendency[];
}

/** What moves a ladder. */
export type LadderEntry = MarkEntry | TempoEntry;

/** What says something about the day and nothing about a ladder. */
export type DayEntry =
  BlockEntry | TensionEntry | NoteEntry | DrawEntry | WayEntry | PlanEntry | ListEntry | AddedEntry | HeardEntry;

export type Entry = LadderEntry | DayEntry | UndoEntry;

/** An entry before the clock has put its id and its moment on it. */
export type Unstamped<E> = E extends unknown ? Omit<E, keyof Stamp> : never;

/** Anything that is to be kept. */
export type Happening = Unstamped<Entry>;

export const ofLadder = (entry: Entry): entry is LadderEntry => entry.kind === 'mark' || entry.kind === 'tempo';

export const ofDay = (entry: Entry): entry is DayEntry => !ofLadder(entry) && entry.kind !== 'undo';
