/** The registers of an instrument, and what an exercise may say of where on it it belongs. */
import type { Instrument } from './instruments.ts';
import { midiOf } from './note-names.ts';
import { type Range, fullRange } from './range.ts';
import type { MidiNote } from '../../common/units.ts';

export const REGISTERS = ['low', 'middle', 'high'] as const;
export type Register = (typeof REGISTERS)[number];

/** Where an exercise belongs: in a register, or with its first key's first note at this written one or just above. */
export type Place = { readonly register: Register } | { readonly from: string };

/** Thirds of the range, which for flute, cornet and bassoon is how players speak of it: common practice, no source. */
function thirds({ low, high }: Range): readonly [lowEnds: MidiNote, highBegins: MidiNote] {
  const third = (high - low) / 3;
  return [Math.round(low + third), Math.round(low + 2 * third)];
}

/** `registerOf(flute, 'low')` is B3 to C5. Neighbouring registers share their border. */
export function registerOf(instrument: Instrument, register: Register): Range {
  const full = fullRange(instrument);
  const [lowEnds, highBegins] = instrument.breaks?.map(midiOf) ?? thirds(full);
  const [one, two] = [lowEnds ?? full.low, highBegins ?? full.high];
  if (register === 'low') return { low: full.low, high: one };
  return register === 'high' ? { low: two, high: full.high } : { low: one, high: two };
}

/** Where the middle of a stretch of notes lies. */
export const middleOf = ({ low, high }: Range): number => (low + high) / 2;

/** Whether notes belong to a register: their middle lies in it. */
export const belongsTo = (register: Range, notes: Range): boolean =>
  middleOf(notes) >= register.low && middleOf(notes) <= register.high;
