/** What a block narrows its exercise to: its own keys and ways of tonguing, and each key once where time is short. */
import type { Seconds } from '../../common/units.ts';
import type { ArticulationName, KeyName } from '../../ladder/line.ts';

/** Null for all that the exercise has. */
export interface Narrowing {
  readonly keys: readonly KeyName[] | null;
  readonly articulations: readonly ArticulationName[] | null;
  /** Time is short: each key once, nothing repeated. */
  readonly once: boolean;
}

const NOT_NARROWED: Narrowing = { keys: null, articulations: null, once: false };

/** A block shorter than this goes through its keys once: common practice, no source. */
const SHORT: Seconds = 240;

/** Null outside a sitting, where nothing is narrowed. */
export const narrowedBy = (
  block: (Pick<Narrowing, 'keys' | 'articulations'> & { readonly length: Seconds }) | null,
): Narrowing =>
  block === null ? NOT_NARROWED : { keys: block.keys, articulations: block.articulations, once: block.length < SHORT };
