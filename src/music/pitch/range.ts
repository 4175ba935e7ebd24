/** The written range in which a pattern is placed, and the choice of the octave. */
import type { Instrument } from './instruments.ts';
import { midiOf, midiOfPitch, readPitch } from './note-names.ts';
import type { MidiNote } from '../../common/units.ts';

/** Written pitches, both ends included. */
export interface Range {
  readonly low: MidiNote;
  readonly high: MidiNote;
}

export const fullRange = (of: Instrument): Range => ({ low: midiOf(of.low), high: midiOf(of.high) });
export const easyRange = (of: Instrument): Range => ({ low: midiOf(of.easyLow), high: midiOf(of.easyHigh) });

/** Reads 'F#3-C6' or 'F#3 to C6'; a sentence where it is no range or stands on its head. */
export function readRange(text: string): Range | string {
  const parts = text.split(/\sto\s|(?<=\d\s*)[-–]/u);
  const [low, high] = parts.map(readPitch);
  if (parts.length !== 2 || !low || !high) {
    return `'${text}' is no range: write the lowest and the highest written note, like F#3 to C6.`;
  }
  const range = { low: midiOfPitch(low), high: midiOfPitch(high) };
  if (range.low <= range.high) return range;
  const [first, second] = parts.map((part) => part.trim());
  return `The range ${text.trim()} stands on its head: ${first} lies above ${second}. Write the lowest note first.`;
}

/** How many semitones outside the range a note lies; 0 inside. */
export const semitonesOutside = (range: Range, midi: MidiNote): number =>
  Math.max(range.low - midi, midi - range.high, 0);

export const allInRange = (range: Range, midis: readonly MidiNote[]): boolean =>
  midis.every((one) => semitonesOutside(range, one) === 0);

/**
 * The least number of octaves by which to move the notes into the range; 0 if they lie in it, null if they never do.
 */
export function fewestOctaves(range: Range, midis: readonly MidiNote[]): number | null {
  const first = Math.ceil((range.low - Math.min(...midis)) / 12);
  const last = Math.floor((range.high - Math.max(...midis)) / 12);
  return first > last ? null : Math.min(Math.max(0, first), last);
}

/** From far below every range to far above it. */
const OCTAVES: readonly number[] = Array.from({ length: 19 }, (_, i) => i - 9);

/**
 * By how many octaves to move the notes so that they lie outside the range by the least, summed over all; of two
 * equally good, the lower.
 */
export function octavesLeastOutside(range: Range, midis: readonly MidiNote[]): number {
  const cost = (octave: number): number =>
    midis.reduce((sum, one) => sum + semitonesOutside(range, one + 12 * octave), 0);
  return OCTAVES.reduce((best, octave) => (cost(octave) < cost(best) ? octave : best));
}
