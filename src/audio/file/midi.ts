/**
 * The timeline as a Standard MIDI File, format 0: tempo and meter, the click on the percussion channel,
 * the model and the drone as notes. Source: Standard MIDI-File Format Spec. 1.1; percussion notes:
 * General MIDI level 1 (from memory).
 */
import { type Layer, isSilentBar, isSilentBeat, strokesOfBar } from '../../music/sound/click-strokes.ts';
import { barLength } from '../../music/time/meter.ts';
import { type Ratio, add, multiply, ratio } from '../../music/time/ratio.ts';
import type { Drone, SoundedNote, Span } from '../../music/sound/sound-commands.ts';
import { DRONE_INTERVALS } from '../../music/pitch/tuning.ts';
import type { Gain } from '../../common/units.ts';

/** Ticks in a quarter: subdivisions into 2 to 8, swung and dotted ones among them, fall on whole ticks. */
export const TICKS_PER_QUARTER = 3360;

const PERCUSSION = 9;
const MODEL = 0;
const DRONE = 1;
const [HIGH_WOOD_BLOCK, LOW_WOOD_BLOCK, SIDE_STICK] = [76, 77, 37];
/** General MIDI programs, counted from 0: trumpet, reed organ. */
const [TRUMPET, REED_ORGAN] = [56, 20];

interface MidiEvent {
  readonly tick: number;
  /** At the same tick: notes end, then the rest, then notes begin. */
  readonly rank: 0 | 1 | 2;
  readonly bytes: readonly number[];
}

/** A variable-length number: `variableLength(0x80)` is [0x81, 0x00]. */
export function variableLength(value: number): readonly number[] {
  const bytes = [value & 0x7f];
  for (let rest = Math.floor(value / 128); rest > 0; rest = Math.floor(rest / 128)) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
}

const ticksOf = (value: Ratio): number => Math.round((value.n * 4 * TICKS_PER_QUARTER) / value.d);
const velocity = (gain: Gain): number => Math.max(1, Math.min(127, Math.round(gain * 127)));

function note(channel: number, key: number, from: number, to: number, gain: Gain): MidiEvent[] {
  return [
    { tick: from, rank: 2, bytes: [0x90 | channel, key, velocity(gain)] },
    { tick: Math.max(from + 1, to), rank: 0, bytes: [0x80 | channel, key, 0] },
  ];
}

/** Microseconds in a quarter. Throws RangeError where the format cannot hold it. */
export function microsecondsPerQuarter(span: Span): number {
  const { bpm, beat } = span.tempo;
  const value = Math.round((60e6 * beat.d) / (bpm * 4 * beat.n));
  if (value > 0xffffff) throw new RangeError('a MIDI file holds no quarter longer than 16.7 seconds');
  return value;
}

function tempoAndMeter(span: Span, tick: number): MidiEvent[] {
  const tempo = microsecondsPerQuarter(span);
  const { count, unit } = span.meter;
  const clocksPerBeat = Math.max(1, Math.min(255, Math.round((96 * span.tempo.beat.n) / span.tempo.beat.d)));
  return [
    { tick, rank: 1, bytes: [0xff, 0x51, 3, tempo >> 16, (tempo >> 8) & 0xff, tempo & 0xff] },
    { tick, rank: 1, bytes: [0xff, 0x58, 4, count, Math.log2(unit), clocksPerBeat, 8] },
  ];
}

const keyOf = (voice: string, layer: Layer): number =>
  voice === 'stick' ? SIDE_STICK : layer === 'bar' || layer === 'group' ? HIGH_WOOD_BLOCK : LOW_WOOD_BLOCK;

function clickOf(span: Span, bar: number, start: Ratio): MidiEvent[] {
  const { click, meter, tempo, gain } = span;
  if (isSilentBar(click, bar)) return [];
  return strokesOfBar(meter, tempo, click)
    .filter((stroke) => !isSilentBeat(click, bar, stroke.beat))
    .flatMap((stroke) => {
      const tick = ticksOf(add(start, stroke.at));
      return note(
        PERCUSSION,
        keyOf(click.voice, stroke.layer),
        tick,
        tick + TICKS_PER_QUARTER / 16,
        stroke.gain * gain,
      );
    });
}

const modelNote = (sounded: SoundedNote, start: Ratio, gain: Gain): MidiEvent[] => {
  const from = add(start, sounded.at);
  return note(MODEL, Math.round(sounded.midi), ticksOf(from), ticksOf(add(from, sounded.length)), sounded.gain * gain);
};

function modelOf(span: Span, start: Ratio, bars: number): MidiEvent[] {
  const bar = barLength(span.meter);
  const end = add(start, multiply(bar, ratio(bars)));
  const length = span.model.reduce(
    (far, n) => Math.max(far, Math.ceil(((n.at.n / n.at.d + n.length.n / n.length.d) * bar.d) / bar.n - 1e-9)),
    1,
  );
  const starts = Array.from({ length: Math.ceil(bars / length) }, (_, i) =>
    add(start, multiply(bar, ratio(i * length))),
  );
  return starts
    .flatMap((at) => span.model.flatMap((n) => modelNote(n, at, span.gain)))
    .filter((event) => event.tick <= ticksOf(end));
}

function droneOf(drone: Drone, to: number): MidiEvent[] {
  const keys = drone.voices.map((voice) => Math.round(drone.tonic) + DRONE_INTERVALS[voice].equal);
  return [
    { tick: 0, rank: 1, bytes: [0xc0 | DRONE, REED_ORGAN] },
    ...keys.flatMap((key) => note(DRONE, key, 0, to, drone.gain)),
  ];
}

/** All events of a chain of finite spans, and the tick at which it ends. */
function eventsOf(spans: readonly Span[]): { readonly events: readonly MidiEvent[]; readonly end: number } {
  const events: MidiEvent[] = [{ tick: 0, rank: 1, bytes: [0xc0 | MODEL, TRUMPET] }];
  let start = ratio(0);
  for (const span of spans) {
    const bars = span.bars ?? 0;
    const bar = barLength(span.meter);
    events.push(...tempoAndMeter(span, ticksOf(start)));
    for (let i = 0; i < bars; i++) events.push(...clickOf(span, i, add(start, multiply(bar, ratio(i)))));
    events.push(...modelOf(span, start, bars));
    start = add(start, multiply(bar, ratio(bars)));
  }
  return { events, end: ticksOf(start) };
}

function trackOf(events: readonly MidiEvent[], end: number): readonly number[] {
  const bytes: number[] = [];
  let last = 0;
  for (const event of [...events].sort((a, b) => a.tick - b.tick || a.rank - b.rank)) {
    bytes.push(...variableLength(event.tick - last), ...event.bytes);
    last = event.tick;
  }
  return [...bytes, ...variableLength(Math.max(0, end - last)), 0xff, 0x2f, 0];
}

const ascii = (text: string): readonly number[] => [...text].map((c) => c.charCodeAt(0));
const number = (value: number, length: number): readonly number[] =>
  Array.from({ length }, (_, i) => (value >>> (8 * (length - 1 - i))) & 0xff);

/** The bytes of the file. Spans without an end count as none. */
export function encodeMidi(spans: readonly Span[], drone: Drone | null): Uint8Array {
  const { events, end } = eventsOf(spans);
  const track = trackOf([...events, ...(drone ? droneOf(drone, end) : [])], end);
  const header = [...ascii('MThd'), ...number(6, 4), ...number(0, 2), ...number(1, 2), ...number(TICKS_PER_QUARTER, 2)];
  return Uint8Array.from([...header, ...ascii('MTrk'), ...number(track.length, 4), ...track]);
}
