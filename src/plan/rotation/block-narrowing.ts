/** What a block narrows its exercise to: its own keys and ways of tonguing, and each key once where time is short. */
import type { Seconds } from '../../common/units.ts';
import type { Place } from '../../music/pitch/registers.ts';
import type { ArticulationName, KeyName } from '../../ladder/line.ts';
import { hasTimeForRepeats } from './weak-keys.ts';

/** Null for all that the exercise has. */
export interface Narrowing {
  readonly keys: readonly KeyName[] | null;
  readonly articulations: readonly ArticulationName[] | null;
  /** Time is short: each key once, nothing repeated. */
  readonly once: boolean;
  /** Where on the instrument the block has it played; where the exercise says when absent. */
  readonly place?: Place | undefined;
}

const NOT_NARROWED: Narrowing = { keys: null, articulations: null, once: false };

/** Null outside a sitting, where nothing is narrowed. */
export const narrowedBy = (
  block: (Pick<Narrowing, 'keys' | 'articulations' | 'place'> & { readonly length: Seconds }) | null,
): Narrowing => {
  if (block === null) return NOT_NARROWED;
  const { keys, articulations, place, length } = block;
  return { keys, articulations, once: !hasTimeForRepeats(length), ...(place === undefined ? {} : { place }) };
};
