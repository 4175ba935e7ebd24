import { type ArticulationName, type KeyName } from '../../ladder/line.ts';
import type { Place } from '../../music/pitch/registers.ts';
import type { BlockDrone, Exercise, Kind } from './exercise.ts';

/** Minutes of playing or rest; fractions are welcome. */
export type Minutes = number;

/** What a block is made of. */
export type BlockContent =
  | { readonly is: 'exercise'; readonly exercise: string }
  /** Drawn when the day is fitted, so that everything in the pool comes round. */
  | { readonly is: 'pool'; readonly pool: string }
  /** Something to do that has neither notes nor a ladder. */
  | { readonly is: 'body' }
  | { readonly is: 'rest' };

/** One timed item of a part. */
export interface Block {
  /** Unique in the routine; the journal remembers it. */
  readonly id: string;
  readonly title: string;
  readonly content: BlockContent;
  readonly kind: Kind | 'rest';
  readonly minutes: Minutes;
  /** What it may be cut down to when time is short. */
  readonly least: Minutes;
  /** Due again after so many days; 1 is daily. */
  readonly everyDays: number;
  /** How much the player wants it, 1 to 5; 3 is ordinary. */
  readonly want: number;
  /** In every day that has time for it at all. */
  readonly always: boolean;
  readonly warmUp: boolean;
  readonly highLoad: boolean;
  /** At the end of the block: go on by itself, or wait for the player. */
  readonly atEnd: 'go on' | 'wait';
  readonly cues: readonly string[];
  /** What to get on the stand. */
  readonly material: string | null;
  /** Only these of the exercise's keys and articulations; null for all of them. */
  readonly keys: readonly KeyName[] | null;
  readonly articulations: readonly ArticulationName[] | null;
  /** Where on the instrument it is played here; where the exercise says when absent. */
  readonly place?: Place;
  /** Breaths to count, for a block without a ladder. */
  readonly breaths: number | null;
  /** Its own drone, in place of the exercise's or on top of it. */
  readonly drone?: BlockDrone;
}

/** A stretch of a routine that is played in one go. */
export interface Part {
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly Block[];
}

/** Exercises of which a block draws one, so that each comes round within so many days. */
export interface Pool {
  readonly id: string;
  readonly title: string;
  readonly items: readonly string[];
  /** Every item is to come round within so many days. */
  readonly everyDays: number;
}

export interface Limits {
  /** At most so many blocks of one kind in a row. */
  readonly sameKind: number;
  /** At most so many high-load minutes without other work or a rest between them. */
  readonly highLoad: Minutes;
}

export interface Breaks {
  readonly after: Minutes;
  readonly minutes: Minutes;
}

/** How long its player has been playing. */
export const LEVELS = ['first years', 'some years', 'advanced'] as const;
export type Level = (typeof LEVELS)[number];

/** A plan for the days: what one routine file says, with every default filled in. */
export interface Routine {
  /** The file's name without its ending. */
  readonly id: string;
  readonly title: string;
  readonly about: string;
  /** Its id in `music/pitch/instruments`. */
  readonly instrument: string;
  /** Ids of the instruments that it is for as well; none when absent. */
  readonly for?: readonly string[];
  readonly level?: Level;
  /** For other instruments than the player's: offered only where it is asked for. */
  readonly elsewhere?: boolean;
  readonly exercises: readonly Exercise[];
  readonly pools: readonly Pool[];
  readonly parts: readonly Part[];
  readonly limits: Limits;
  /** Null when the player wants none. */
  readonly breaks: Breaks | null;
  readonly order: 'blocked' | 'interleaved';
}

/** Alone, 5 minutes after each 25: several health pages for musicians, read. */
export const DEFAULT_BREAKS: Breaks = { after: 25, minutes: 5 };
/** Common practice, no source. */
export const DEFAULT_LIMITS: Limits = { sameKind: 3, highLoad: 10 };

/** By what it is kept under; older records may have its bare name. */
export const exerciseOf = ({ exercises }: Routine, id: string): Exercise | null =>
  exercises.find((exercise) => exercise.id === id) ?? exercises.find(({ name }) => name === id) ?? null;

/** Whether a packaged routine is for a player of this instrument. */
export const isForInstrument = (routine: Pick<Routine, 'instrument' | 'for'>, instrument: string): boolean =>
  routine.instrument === instrument || (routine.for ?? []).includes(instrument);

export const blocksOf = (routine: Routine): readonly Block[] => routine.parts.flatMap((part) => part.blocks);
