/** One stay in a key: what comes round in a rotation, and the name by which the journal remembers it. */
import type { ArticulationName, KeyName } from '../../ladder/line.ts';

export type Fingering = 'ordinary' | 'alternate';

export interface Turn {
  readonly key: KeyName;
  readonly articulation: ArticulationName;
  readonly fingering: Fingering;
}

/**
 * 'Bb · double', and with alternate fingerings 'Bb · double · alternate'. Journals from before fingerings were kept
 * have the short name for both.
 */
export const turnName = ({ key, articulation, fingering }: Turn): string =>
  fingering === 'ordinary' ? `${key} · ${articulation}` : `${key} · ${articulation} · ${fingering}`;

/** Both name the same key and the same way of tonguing. */
export const isSameLine = (a: Turn, b: Turn): boolean => a.key === b.key && a.articulation === b.articulation;
