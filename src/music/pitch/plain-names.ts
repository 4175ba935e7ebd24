/** A name for a pitch that stands in no key. */
import type { MidiNote } from '../../common/units.ts';

/** The signs that are met most often: common practice, no source. */
const NAMES = ['C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'] as const;

/** `plainName(58)` is 'Bb3'. */
export const plainName = (midi: MidiNote): string => `${NAMES[((midi % 12) + 12) % 12]}${Math.floor(midi / 12) - 1}`;
