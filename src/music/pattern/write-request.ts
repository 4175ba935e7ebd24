/** What a pattern needs to be written out. */
import type { Instrument } from '../pitch/instruments.ts';
import { type Range, easyRange, fullRange } from '../pitch/range.ts';
import type { Place } from '../pitch/registers.ts';
import type { Meter } from '../time/meter.ts';
import type { Ratio } from '../time/ratio.ts';

/** The keys of an exercise in the order in which they come. */
export interface KeyRound {
  readonly keys: readonly string[];
  /** They are drawn, so that any of them may follow any other. */
  readonly drawn: boolean;
}

export interface WriteRequest {
  readonly pattern: string;
  /** Name of the scale in which the degrees are counted. */
  readonly scale: string;
  /** Written key, 'Bb' or 'A minor'. */
  readonly key: string;
  readonly meter: Meter;
  readonly beat: Ratio;
  readonly notesPerBeat: number;
  readonly instrument: Instrument;
  /** The player's own range instead of the instrument's. */
  readonly range?: Range;
  /** The player's own easy range. */
  readonly easy?: Range;
  /** Where on the instrument it belongs; where it is easiest when absent. */
  readonly place?: Place;
  /** The keys with which it keeps to one voice; this key is alone when absent. */
  readonly round?: KeyRound;
}

/** The range that no note leaves, and the part of it that is easy. */
export function rangesOf({ range, easy, instrument }: WriteRequest): { readonly full: Range; readonly easy: Range } {
  const full = range ?? fullRange(instrument);
  return { full, easy: easy ?? (range ? full : easyRange(instrument)) };
}
