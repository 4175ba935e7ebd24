/** A running routine: where it stands, what can happen to it and what it asks for. */
import type { DayEntry, TensionLevel, Unstamped } from '../../diary/entry.ts';
import type { Seconds } from '../../common/units.ts';
import type { RunItem } from './run-items.ts';

export type Phase =
  /** A block lies ready and waits for the player. */
  | 'ready'
  | 'playing'
  | 'paused'
  /** The block's time is up and nothing counts; the player goes on to the next one, or plays on. */
  | 'over'
  /** The time is up and the player goes on playing, which counts. */
  | 'playing on'
  | 'left'
  | 'finished';

/** A question about a block that was played. */
export interface Asked {
  readonly title: string;
  readonly exercise: string | null;
  /** The answer that was chosen and is not kept yet; none when absent. */
  readonly level?: TensionLevel;
}

/** An answer to a question, or a breath that was counted, with where the one before it was counted. */
export type Said = 'reading' | { readonly breathAt: Seconds };

export interface Run {
  readonly routine: string;
  readonly items: readonly RunItem[];
  /** Index of the current item; the number of items when finished. */
  readonly at: number;
  readonly phase: Phase;
  /** Monotonic time of the last event. */
  readonly clock: Seconds;
  /** Played since the journal last heard of the block. */
  readonly unsaid: Seconds;
  /** Breaths counted in the current item. */
  readonly breaths: number;
  /** Played in the current item when the last breath was counted. */
  readonly breathAt: Seconds;
  /** What the player said since the current item was opened, oldest first: the one key takes the newest back. */
  readonly said: readonly Said[];
  /** The block whose tension may be told now; null when nothing is asked. */
  readonly asked: Asked | null;
  /** One sentence for the player; empty when there is nothing to say. */
  readonly remark: string;
  /** What counts as sleep, where it is not GAP: a clock that runs faster is late by more. */
  readonly gap?: Seconds;
}

export type RunAction =
  /** The clock runs: of a block that lies ready, of one that was paused, or past the time of one that is over. */
  | 'start'
  /** The clock stands still. */
  | 'pause'
  /** To the next block. Its clock runs at once, unless the present block lay ready or was paused. */
  | 'next'
  | 'extend'
  | 'skip'
  | 'swap'
  | 'back'
  | 'breath'
  /** What the player said last is taken back; the journal's part of it is the caller's. */
  | 'unsay'
  | 'leave';

export type RunEvent =
  | { readonly type: 'tick'; readonly now: Seconds }
  | { readonly type: 'do'; readonly action: RunAction; readonly now: Seconds }
  | { readonly type: 'tension'; readonly level: TensionLevel; readonly now: Seconds };

export type RunEffect =
  | { readonly do: 'record'; readonly record: Unstamped<DayEntry> }
  /** One gentle sound at the next bar line. */
  | { readonly do: 'chime' }
  /** Put this item on the stand; what sounded before ends at its next bar line. */
  | { readonly do: 'open'; readonly item: RunItem }
  /** The current item starts, goes on or stands still. */
  | { readonly do: 'play' | 'still' };

/** What an event makes of a run, and what is to be done outside. */
export interface RunStep {
  readonly run: Run;
  readonly effects: readonly RunEffect[];
}

export const current = (run: Run): RunItem | null => run.items[run.at] ?? null;

export const secondsLeft = (item: RunItem): Seconds => Math.max(0, item.length - item.played);

/** Whether time that passes counts as played. */
export const isClockRunning = ({ phase }: Run): boolean => phase === 'playing' || phase === 'playing on';
