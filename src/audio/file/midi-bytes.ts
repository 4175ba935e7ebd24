/** Standard MIDI Files, format 0, byte by byte. Source: Standard MIDI-File Format Spec. 1.1. */
import type { Gain } from '../../common/units.ts';

/** Ticks in a quarter: subdivisions into 2 to 8, swung and dotted ones among them, fall on whole ticks. */
export const TICKS_PER_QUARTER = 3360;

export interface MidiEvent {
  readonly tick: number;
  /** At the same tick: notes end, then the rest, then notes begin. */
  readonly rank: 0 | 1 | 2;
  readonly bytes: readonly number[];
}

const bigEndian = (value: number, length: number): readonly number[] =>
  Array.from({ length }, (_, i) => (value >>> (8 * (length - 1 - i))) & 0xff);

/** A variable-length number: `variableLength(0x80)` is [0x81, 0x00]. */
export function variableLength(value: number): readonly number[] {
  const bytes = [value & 0x7f];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
}

const velocity = (gain: Gain): number => Math.max(1, Math.min(127, Math.round(gain * 127)));

/** A note's beginning and end; it lasts one tick at least. */
export const noteEvents = (channel: number, key: number, from: number, to: number, gain: Gain): MidiEvent[] => [
  { tick: from, rank: 2, bytes: [0x90 | channel, key, velocity(gain)] },
  { tick: Math.max(from + 1, to), rank: 0, bytes: [0x80 | channel, key, 0] },
];

export const programEvent = (channel: number, program: number): MidiEvent => ({
  tick: 0,
  rank: 1,
  bytes: [0xc0 | channel, program],
});

/** Throws RangeError where the format cannot hold so many microseconds. */
export function tempoEvent(tick: number, microsecondsPerQuarter: number): MidiEvent {
  if (microsecondsPerQuarter > 0xffffff) throw new RangeError('a MIDI file holds no quarter longer than 16.7 seconds');
  return { tick, rank: 1, bytes: [0xff, 0x51, 3, ...bigEndian(microsecondsPerQuarter, 3)] };
}

/** `unit` is the note value below the line; of the 24 clocks in a quarter, `clocks` lie between two clicks. */
export const meterEvent = (tick: number, count: number, unit: number, clocks: number): MidiEvent => ({
  tick,
  rank: 1,
  bytes: [0xff, 0x58, 4, count, Math.log2(unit), clocks, 8],
});

function trackOf(events: readonly MidiEvent[], end: number): readonly number[] {
  const bytes: number[] = [];
  let last = 0;
  for (const event of [...events].sort((a, b) => a.tick - b.tick || a.rank - b.rank)) {
    bytes.push(...variableLength(event.tick - last), ...event.bytes);
    last = event.tick;
  }
  return [...bytes, ...variableLength(Math.max(0, end - last)), 0xff, 0x2f, 0];
}

const chunk = (name: string, body: readonly number[]): readonly number[] => [
  ...Buffer.from(name, 'latin1'),
  ...bigEndian(body.length, 4),
  ...body,
];

/** The file of one track, which ends at the tick `end`. */
export const midiFile = (events: readonly MidiEvent[], end: number): Uint8Array =>
  Uint8Array.from([
    ...chunk('MThd', [...bigEndian(0, 2), ...bigEndian(1, 2), ...bigEndian(TICKS_PER_QUARTER, 2)]),
    ...chunk('MTrk', trackOf(events, end)),
  ]);
