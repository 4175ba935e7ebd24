/**
 * Written to concert pitch. Source: orchestration handbooks, from memory, as kept in `../shared/checks.md`;
 * rows marked * are common practice in bands and from memory too.
 */
import type { MidiNote, Semitones } from './units.ts';

/** Semitones from the written to the sounding note, by instrument. */
export const INSTRUMENTS: Readonly<Record<string, Semitones>> = {
  'concert pitch': 0,
  'B-flat cornet': -2,
  'B-flat trumpet': -2,
  'C trumpet': 0, // *
  'B-flat flugelhorn': -2, // *
  'E-flat soprano cornet': 3,
  'E-flat tenor horn': -9,
  'F horn': -7,
  'B-flat baritone': -14,
  'B-flat euphonium': -14,
  'euphonium in bass clef': 0, // *
  trombone: 0, // *
  'B-flat trombone in treble clef': -14, // *
  'B-flat bass': -26,
  'E-flat bass': -21,
  'tuba in bass clef': 0, // *
  flute: 0,
  piccolo: 12,
  'alto flute': -5,
  'bass flute': -12,
  oboe: 0, // *
  'English horn': -7,
  bassoon: 0, // *
  'B-flat clarinet': -2,
  'A clarinet': -3,
  'E-flat clarinet': 3,
  'bass clarinet': -14,
  'soprano saxophone': -2,
  'alto saxophone': -9,
  'tenor saxophone': -14,
  'baritone saxophone': -21,
  'descant recorder': 12,
  'treble recorder': 0, // *
};

const plain = (name: string): string =>
  name.toLowerCase().replaceAll('♭', '-flat').replace(/\bbb\b/, 'b-flat').replace(/\beb\b/, 'e-flat').replaceAll(/[\s_-]+/g, ' ').trim();

/** Finds an instrument however it is written: `findInstrument('bb cornet')` is 'B-flat cornet'. Null where none fits. */
export const findInstrument = (name: string): string | null =>
  Object.keys(INSTRUMENTS).find((known) => plain(known) === plain(name)) ?? null;

/** The sounding note: `concertPitch(60, 'B-flat cornet')` is 58. An unknown instrument is a RangeError. */
export function concertPitch(written: MidiNote, instrument: string): MidiNote {
  const semitones = INSTRUMENTS[findInstrument(instrument) ?? ''];
  if (semitones === undefined) throw new RangeError(`unknown instrument: ${instrument}`);
  return written + semitones;
}

/** The written note that sounds at concert pitch: the way back. */
export const writtenPitch = (concert: MidiNote, instrument: string): MidiNote => concert - concertPitch(0, instrument);
