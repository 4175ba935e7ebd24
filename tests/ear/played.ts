/** A drill played by a machine: each of its notes as a tone, out of tune and time by what is asked. */
import type { ExpectedNote } from '../../src/ear/expected-notes.ts';
import { RATE, tone } from './tones.ts';

export interface Played {
  /** Cents off, by note. */
  readonly cents?: (note: ExpectedNote, index: number) => number;
  /** Seconds late, by note. */
  readonly late?: (note: ExpectedNote, index: number) => number;
  /** Seconds before the first beat. */
  readonly before?: number;
  /** What each note gains from beginning to end, in cents. */
  readonly drift?: number;
}

const REED = [1, 0.6, 0.4, 0.25, 0.15];

export function played(
  notes: readonly ExpectedNote[],
  { cents = () => 0, late = () => 0, before = 0.5, drift = 0 }: Played,
): Float32Array {
  const out = new Float32Array(Math.round(((notes.at(-1)?.to ?? 0) + before + 0.5) * RATE));
  notes.forEach((note, i) => {
    // A tongued note ends a little before the next begins.
    const seconds = (note.to - note.from) * (note.tongued ? 0.9 : 0.98);
    const hertz = note.hertz * 2 ** (cents(note, i) / 1200);
    const at = Math.round((before + note.from + late(note, i)) * RATE);
    out.set(tone({ hertz, seconds, harmonics: REED, drift }), at);
  });
  return out;
}
