import { type Ratio, QUARTER, ratio } from './ratio.ts';
import type { Bpm, NotesPerSecond, Seconds } from './units.ts';

/** A time signature with the grouping that makes it audible, e.g. 7/8 as 2+2+3. */
export interface Meter {
  /** Upper number: how many units fill a bar. */
  readonly count: number;
  /** Lower number: the unit's note value, a power of two. */
  readonly unit: number;
  /** Units in each group, in order; they add up to `count`. */
  readonly groups: readonly number[];
}

/** A speed: so many of these beats in a minute. */
export interface Tempo {
  readonly bpm: Bpm;
  /** The beat's note value: 1/4 a quarter, 3/8 a dotted quarter. */
  readonly beat: Ratio;
}

export const COMMON_TIME: Meter = { count: 4, unit: 4, groups: [4] };

/** Length of a bar as a fraction of a whole note: 7/8 is 7/8, 4/4 is 1. */
export const barLength = (meter: Meter): Ratio => ratio(meter.count, meter.unit);

/** How long a note value lasts: `secondsOf(QUARTER, { bpm: 120, beat: QUARTER })` is 0.5. */
export const secondsOf = (value: Ratio, tempo: Tempo): Seconds =>
  (value.n * tempo.beat.d * 60) / (value.d * tempo.beat.n * tempo.bpm);

/** Speeds compare across note values: bpm x notes per beat / 60. Sixteenths at 120 are 8.0. */
export const notesPerSecond = (bpm: Bpm, notesPerBeat: number): NotesPerSecond => (bpm * notesPerBeat) / 60;

export const quarterTempo = (bpm: Bpm): Tempo => ({ bpm, beat: QUARTER });
