/** What one line of the journal says. The file is for ever: old versions are read by migrations, never rewritten. */
import type { Mark } from '../ladder/rule.ts';
import type { Bpm, Seconds } from '../music/units.ts';

interface Common {
  /** Version of the entry's shape. */
  readonly v: 1;
  /** Unique and time-ordered (UUID version 7, RFC 9562): journals of two machines merge by it. */
  readonly id: string;
  /** Local date and time with offset, ISO 8601: '2026-11-25T18:04:09.123+01:00'. */
  readonly at: string;
  /** The player's own day, 'YYYY-MM-DD'; it may go on after midnight. */
  readonly day: string;
}

export interface LineRef {
  readonly exercise: string;
  readonly articulation: string;
  readonly key: string;
}

export interface MarkEntry extends Common, LineRef {
  readonly kind: 'mark';
  readonly mark: Mark;
  readonly bpm: Bpm;
  /** Note value of the beat, '1/4'. */
  readonly beat: string;
  readonly notesPerBeat: number;
  /** What the rule asked for at that time, clean or missed repetitions in a row: a line can be recomputed from the journal alone. */
  readonly cleanUp: number;
  readonly missedDown: number;
  /** The ladder's tempo after the rule was applied: the next repetition's, and where the line is left. */
  readonly next: Bpm;
  /** Set on a slow repetition of the alternating order: it is kept and counted, but does not move the ladder. */
  readonly slow?: true;
  /** The key that sounded, where all keys of the exercise share one line. */
  readonly sounded?: string;
  /** Whether the player said it or the exercise's rule for no mark did. */
  readonly by: 'player' | 'rule';
}

/** The player moved the ladder by hand. */
export interface TempoEntry extends Common, LineRef {
  readonly kind: 'tempo';
  readonly next: Bpm;
}

/** Takes an earlier entry back; undoing an undo is marking again. */
export interface UndoEntry extends Common {
  readonly kind: 'undo';
  readonly of: string;
}

/** What happened to one block of a routine. `going` is written once a minute, so that a power cut costs no more than that. */
export interface BlockEntry extends Common {
  readonly kind: 'block';
  /** Ids, not places: a routine file may be edited between two sittings. */
  readonly routine: string;
  readonly part: string;
  readonly block: string;
  readonly event: 'started' | 'going' | 'left' | 'done' | 'skipped';
  /** Played in this block so far today, by a clock that only runs forward. */
  readonly played: Seconds;
  /** How long the block is to last, with what the player added. */
  readonly length: Seconds;
  /** What was played: an exercise's id; null for a rest or a block without one. */
  readonly exercise: string | null;
}

/** How tense the player felt after a block: 0 not at all, 4 very. */
export interface TensionEntry extends Common {
  readonly kind: 'tension';
  readonly level: 0 | 1 | 2 | 3 | 4;
  readonly exercise: string | null;
}

/** A free note of the player's. */
export interface NoteEntry extends Common {
  readonly kind: 'note';
  readonly text: string;
}

/** What came out of a pool: an exercise's id, or a key and articulation as 'Bb · double'. */
export interface DrawEntry extends Common {
  readonly kind: 'draw';
  readonly pool: string;
  readonly item: string;
}

/**
 * A way round a wall was played, or left in the middle. Whether it helped is not written down: later marks
 * at the wall's tempo say it, and can still change it.
 */
export interface WayEntry extends Common, LineRef {
  readonly kind: 'way';
  /** Name of the way, as `ladder/ways` has it: 'bursts', 'off-beats'. */
  readonly way: string;
  /** Tempo of the rung that the line kept falling from. */
  readonly wall: Bpm;
  readonly outcome: 'played' | 'left';
}

/** What a sitting set out to do, so that it can be gone on with after an interruption. */
export interface PlanEntry extends Common {
  readonly kind: 'plan';
  readonly routine: string;
  readonly items: readonly {
    readonly part: string;
    /** A block's id, or 'break' for a rest between blocks. */
    readonly block: string;
    readonly length: Seconds;
    /** Played of the block earlier that day. */
    readonly before: Seconds;
    readonly exercise: string | null;
  }[];
}

export type Entry =
  | MarkEntry
  | TempoEntry
  | UndoEntry
  | BlockEntry
  | TensionEntry
  | NoteEntry
  | DrawEntry
  | WayEntry
  | PlanEntry;
