/** Pulses of vibrato: so many on each beat, and how fast that is. */
import { readArticulation } from './articulation.ts';

/** How many pulses an articulation like 'pulses 4' sets on each beat; null for tonguing. */
export function pulsesIn(articulation: string): number | null {
  const read = readArticulation(articulation);
  return typeof read === 'string' ? null : (read.pulses ?? null);
}

/** What is counted on each beat of a line: its pulses, or else its notes. */
export const countedOnBeat = (articulation: string, notesPerBeat: number): number =>
  pulsesIn(articulation) ?? notesPerBeat;
