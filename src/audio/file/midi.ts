/**
 * The timeline as a Standard MIDI File: tempo and meter, the click on the percussion channel, the model and the drone
 * as notes. Percussion and programs: General MIDI level 1 (from memory).
 */
import { type Layer, isSilentBar, isSilentBeat, strokesOfBar } from '../../music/sound/click-strokes.ts';
import { barLength } from '../../music/time/meter.ts';
import { type Ratio, add, compare, divide, multiply, ratio } from '../../music/time/ratio.ts';
import type { Drone, SoundedNote, Span } from '../../music/sound/sound-commands.ts';
import { DRONE_INTERVALS } from '../../music/pitch/tuning.ts';
import type { Gain } from '../../common/units.ts';
import {
  type MidiEvent,
  TICKS_PER_QUARTER,
  meterEvent,
  midiFile,
  noteEvents,
  programEvent,
  tempoEvent,
} from './midi-bytes.ts';

const PERCUSSION = 9;
const MODEL = 0;
const DRONE = 1;
const [HIGH_WOOD_BLOCK, LOW_WOOD_BLOCK, SIDE_STICK] = [76, 77, 37];
/** General MIDI programs, counted from 0: trumpet, reed organ. */
const [TRUMPET, REED_ORGAN] = [56, 20];

/** How long a click's note is held; percussion rings as long as it will. */
const STROKE = ratio(1, 64);

const ticksOf = (value: Ratio): number => Math.round((value.n * 4 * TICKS_PER_QUARTER) / value.d);
const sooner = (a: Ratio, b: Ratio): Ratio => (compare(a, b) < 0 ? a : b);

/** Clocks of the tempo's beat: 24 for a quarter. */
const clocksOf = (beat: Ratio): number => Math.max(1, Math.min(255, Math.round((96 * beat.n) / beat.d)));

function tempoAndMeter({ tempo, meter }: Span, tick: number): MidiEvent[] {
  const { bpm, beat } = tempo;
  const microsecondsPerQuarter = Math.round((60e6 * beat.d) / (bpm * 4 * beat.n));
  return [tempoEvent(tick, microsecondsPerQuarter), meterEvent(tick, meter.count, meter.unit, clocksOf(beat))];
}

/** A span and where it lies in the file. */
interface SpanInFile {
  readonly span: Span;
  readonly start: Ratio;
  /** An endless span has none. */
  readonly bars: number;
}

const endOf = ({ span, start, bars }: SpanInFile): Ratio => add(start, multiply(barLength(span.meter), ratio(bars)));

const keyOf = (voice: string, layer: Layer): number =>
  voice === 'stick' ? SIDE_STICK : layer === 'bar' || layer === 'group' ? HIGH_WOOD_BLOCK : LOW_WOOD_BLOCK;

function clickOf({ click, meter, tempo, gain }: Span, bar: number, start: Ratio): MidiEvent[] {
  if (isSilentBar(click, bar)) return [];
  return strokesOfBar(meter, tempo, click)
    .filter((stroke) => !isSilentBeat(click, bar, stroke.beat))
    .flatMap((stroke) => {
      const at = add(start, stroke.at);
      const key = keyOf(click.voice, stroke.layer);
      return noteEvents(PERCUSSION, key, ticksOf(at), ticksOf(add(at, STROKE)), stroke.gain * gain);
    });
}

/** A note of the model; one that reaches over the end is cut there, one that begins there is none. */
function modelNote({ at, length, midi, gain }: SoundedNote, start: Ratio, end: Ratio, level: Gain): MidiEvent[] {
  const from = add(start, at);
  if (compare(from, end) >= 0) return [];
  return noteEvents(MODEL, Math.round(midi), ticksOf(from), ticksOf(sooner(add(from, length), end)), gain * level);
}

/** Bars after which the model begins again. */
function barsOf(model: readonly SoundedNote[], bar: Ratio): number {
  const bars = model.map((note) => divide(add(note.at, note.length), bar));
  return Math.max(1, ...bars.map(({ n, d }) => Math.ceil(n / d)));
}

function modelOf(placed: SpanInFile): MidiEvent[] {
  const { span, start, bars } = placed;
  const bar = barLength(span.meter);
  const period = barsOf(span.model, bar);
  const times = Array.from({ length: Math.ceil(bars / period) }, (_, i) => ratio(i * period));
  const starts = times.map((time) => add(start, multiply(bar, time)));
  return starts.flatMap((from) => span.model.flatMap((note) => modelNote(note, from, endOf(placed), span.gain)));
}

function droneOf(drone: Drone, end: number): MidiEvent[] {
  const keys = drone.voices.map((voice) => Math.round(drone.tonic) + DRONE_INTERVALS[voice].equal);
  return [programEvent(DRONE, REED_ORGAN), ...keys.flatMap((key) => noteEvents(DRONE, key, 0, end, drone.gain))];
}

function inARow(spans: readonly Span[]): readonly SpanInFile[] {
  let start = ratio(0);
  return spans.map((span) => {
    const placed = { span, start, bars: span.bars ?? 0 };
    start = endOf(placed);
    return placed;
  });
}

function eventsOf(placed: SpanInFile): MidiEvent[] {
  const { span, start, bars } = placed;
  const bar = barLength(span.meter);
  const clicks = Array.from({ length: bars }, (_, i) => clickOf(span, i, add(start, multiply(bar, ratio(i)))));
  return [...tempoAndMeter(span, ticksOf(start)), ...clicks.flat(), ...modelOf(placed)];
}

/** The bytes of the file. Spans without an end count as none. Throws RangeError where a tempo is too slow for it. */
export function encodeMidi(spans: readonly Span[], drone: Drone | null): Uint8Array {
  const row = inARow(spans);
  const last = row.at(-1);
  const end = last ? ticksOf(endOf(last)) : 0;
  const notes = [...row.flatMap(eventsOf), ...(drone ? droneOf(drone, end) : [])];
  return midiFile([programEvent(MODEL, TRUMPET), ...notes], end);
}
