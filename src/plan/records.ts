/**
 * What the plan reads of a journal: the shapes of `journal/entry`, said here again because the plan
 * knows nothing of files. An entry of the journal is one of these as it is.
 */
import type { Bpm, Seconds } from '../music/units.ts';

interface Common {
  /** The journal's own; absent only before an entry is kept. */
  readonly id?: string;
  /** ISO 8601 with offset. Names a moment; nothing is measured with it. */
  readonly at: string;
  /** The player's own day, 'YYYY-MM-DD'. */
  readonly day: string;
}

export interface BlockRecord extends Common {
  readonly kind: 'block';
  readonly routine: string;
  readonly part: string;
  readonly block: string;
  readonly event: 'started' | 'going' | 'left' | 'done' | 'skipped';
  readonly played: Seconds;
  readonly length: Seconds;
  readonly exercise: string | null;
}

export type TensionLevel = 0 | 1 | 2 | 3 | 4;

export interface TensionRecord extends Common {
  readonly kind: 'tension';
  readonly level: TensionLevel;
  readonly exercise: string | null;
}

export interface NoteRecord extends Common {
  readonly kind: 'note';
  readonly text: string;
}

/** What came out of a pool, or which key and articulation of an exercise: `plan/draw`'s cell name. */
export interface DrawRecord extends Common {
  readonly kind: 'draw';
  readonly pool: string;
  readonly item: string;
}

/** Takes an earlier record back. */
export interface UndoRecord extends Common {
  readonly kind: 'undo';
  readonly of: string;
}

/** A way round a wall was played, or left in the middle. */
export interface WayRecord extends Common {
  readonly kind: 'way';
  readonly exercise: string;
  readonly articulation: string;
  readonly key: string;
  readonly way: string;
  readonly wall: Bpm;
  readonly outcome: 'played' | 'left';
}

/** What a sitting set out to do, so that the same sitting can be gone on with after a power cut. */
export interface PlanRecord extends Common {
  readonly kind: 'plan';
  readonly routine: string;
  readonly items: readonly PlannedItem[];
}

export interface PlannedItem {
  readonly part: string;
  /** A block's id, or BREAK. */
  readonly block: string;
  readonly length: Seconds;
  /** Played of the block earlier that day, before this sitting. */
  readonly before: Seconds;
  readonly exercise: string | null;
}

/** Stands for the id of a block where a sitting rests between two blocks. */
export const BREAK = 'break';

export type DayRecord =
  | BlockRecord
  | TensionRecord
  | NoteRecord
  | PlanRecord
  | DrawRecord
  | UndoRecord
  | WayRecord
  | (Common & { readonly kind: 'mark' | 'tempo' });

/** What the plan reads of a line's history. */
export interface LineRecord {
  readonly line: { readonly exercise: string; readonly articulation: string; readonly key: string };
  readonly lastDay: string;
  readonly best: { readonly bpm: Bpm; readonly day: string } | null;
  /** Marks of each day and tempo, days rising. */
  readonly tallies: readonly {
    readonly day: string;
    readonly bpm: Bpm;
    readonly clean: number;
    readonly tense: number;
    readonly missed: number;
  }[];
}
