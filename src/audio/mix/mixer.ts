/**
 * The one mixer: from a score to samples, for the sound card, for files and for tests alike.
 * A stretch of sound depends on the score and its frame numbers alone, never on what was mixed before,
 * so any stretch can be mixed again after a change.
 */
import type { Layer } from '../../music/sound/click-strokes.ts';
import { frameOf, seconds } from '../../music/time/exact-seconds.ts';
import type { Drone, SoundedNote } from '../../music/sound/sound-commands.ts';
import { type ModelNote, notesBetween, onsetsBetween } from '../../music/sound/timeline.ts';
import { droneRatio, frequencyOf } from '../../music/pitch/tuning.ts';
import type { FrameRate, Frames, Gain, Seconds } from '../../common/units.ts';
import { BLOCK, MARGIN, limit } from './limiter.ts';
import { DRONE_IN, DRONE_OUT, type DroneLayer, RAMP, STOP_FADE, type Score, type Track, levelAt } from './score.ts';
import { frequencyAt, isMoving, periodsAt } from './drone-glide.ts';
import { addMovingTone, addTone, addToneFrom, harmonicsFor, wavetable } from './drone-wavetable.ts';

/** Recorded sounds at the mixer's rate. */
export interface Kit {
  readonly rate: FrameRate;
  /** Never empty: an unknown voice gets the plain one. */
  readonly click: (voice: string, layer: Layer) => Float32Array;
  readonly chime: Float32Array;
  /** Frames of the longest click. */
  readonly longest: Frames;
}

interface Stretch {
  readonly out: Float32Array;
  readonly from: Frames;
  readonly rate: FrameRate;
}

const startOf = (s: Stretch): Seconds => s.from / s.rate;
const endOf = (s: Stretch): Seconds => (s.from + s.out.length) / s.rate;

/** Adds a recording that starts at a frame; `stop` is the frame from which it fades, or Infinity. */
function addRecording(s: Stretch, sound: Float32Array, at: Frames, gain: Gain, stop: Frames): void {
  const first = Math.max(0, at - s.from);
  const last = Math.min(s.out.length, at - s.from + sound.length);
  const fade = STOP_FADE * s.rate;
  for (let i = first; i < last; i++) {
    const left = 1 - (i + s.from - stop) / fade;
    if (left <= 0) return;
    s.out[i] = (s.out[i] ?? 0) + (sound[i + s.from - at] ?? 0) * gain * Math.min(1, left);
  }
}

function addClicks(s: Stretch, track: Track, score: Score, kit: Kit): void {
  const earlier = (kit.longest + 1) / s.rate;
  const until = track.until ?? Infinity;
  for (const onset of onsetsBetween(track.chain, startOf(s) - earlier, endOf(s) + 1 / s.rate)) {
    const at = seconds(onset.at);
    if (at < track.audibleFrom || at >= until) continue;
    const gain = onset.gain * levelAt(score.click, at);
    addRecording(s, kit.click(onset.voice, onset.layer), frameOf(onset.at, s.rate), gain, until * s.rate);
  }
}

/** 0 before, 1 after, smooth between. */
const rise = (x: number): number => (x <= 0 ? 0 : x >= 1 ? 1 : x * x * (3 - 2 * x));

const ATTACK: Seconds = 0.012;
const SLUR: Seconds = 0.02;
const RELEASE: Seconds = 0.04;

function noteEnvelope(note: SoundedNote, t: Seconds, length: Seconds): Gain {
  const on = rise(t / (note.slurred ? SLUR : ATTACK));
  const off = 1 - rise((t - length) / RELEASE);
  const bloom = note.slurred ? 0.75 : 0.75 + 0.25 * Math.exp(-t / 0.08);
  return on * off * bloom;
}

function addNote(s: Stretch, sounding: ModelNote, gain: Gain): void {
  const frequency = frequencyOf(sounding.note.midi);
  const at = Math.round(sounding.at * s.rate);
  const first = Math.max(0, at - s.from);
  const last = Math.min(s.out.length, at - s.from + Math.ceil((sounding.length + RELEASE) * s.rate));
  if (first >= last) return;
  const tone = new Float32Array(last - first);
  addTone(
    tone,
    wavetable('string', Math.min(10, harmonicsFor(frequency, s.rate))),
    frequency,
    s.rate,
    s.from + first - at,
    gain,
  );
  for (let i = first; i < last; i++) {
    const t = (i + s.from - at) / s.rate;
    s.out[i] = (s.out[i] ?? 0) + (tone[i - first] ?? 0) * noteEnvelope(sounding.note, t, sounding.length);
  }
}

function addModel(s: Stretch, track: Track, score: Score): void {
  const until = track.until ?? Infinity;
  for (const sounding of notesBetween(track.chain, startOf(s) - RELEASE, endOf(s))) {
    if (sounding.at < track.audibleFrom || sounding.at >= until) continue;
    const cut = { ...sounding, length: Math.min(sounding.length, until - sounding.at) };
    addNote(s, cut, sounding.gain * levelAt(score.click, sounding.at));
  }
}

const droneEnvelope = (layer: DroneLayer, t: Seconds): Gain =>
  rise((t - layer.from) / DRONE_IN) * (layer.until === null ? 1 : 1 - rise((t - layer.until) / DRONE_OUT));

const isSteady = (layer: DroneLayer, from: Seconds, to: Seconds): boolean =>
  from >= layer.from + DRONE_IN && (layer.until === null || to <= layer.until);

/** Softer than the tonic, so that its fundamental stays the strongest even where a voice falls on its harmonics. */
const OTHER_VOICE: Gain = 0.45;

const shareOf = (voice: Drone['voices'][number]): Gain => (voice === 'tonic' ? 1 : OTHER_VOICE);

/** All voices of a drone at its own gain, before it fades in or out. */
function droneTone(s: Stretch, { drone, glides = [] }: DroneLayer): Float32Array {
  const tone = new Float32Array(s.out.length);
  const { voices, tuning, timbre } = drone;
  const power = voices.reduce((sum, voice) => sum + shareOf(voice) ** 2, 0);
  const tonic = frequencyAt(drone, glides, endOf(s));
  const moves = isMoving(glides, startOf(s), endOf(s));
  for (const voice of voices) {
    const ratio = droneRatio(voice, tuning);
    const table = wavetable(timbre, harmonicsFor(ratio * tonic, s.rate));
    const share = (drone.gain * shareOf(voice)) / Math.sqrt(power);
    const periods = (i: number): number => ratio * periodsAt(drone, glides, (s.from + i) / s.rate);
    if (moves) addMovingTone(tone, table, periods, share);
    else addToneFrom(tone, table, ratio * tonic, s.rate, periods(0), share);
  }
  return tone;
}

function addDrone(s: Stretch, layer: DroneLayer, score: Score): void {
  const { until } = layer;
  if (endOf(s) <= layer.from || startOf(s) >= (until ?? Infinity) + DRONE_OUT) return;
  const tone = droneTone(s, layer);
  const moving = !isSteady(layer, startOf(s), endOf(s)) || startOf(s) < score.drone.at + RAMP;
  const steady = levelAt(score.drone, endOf(s));
  for (let i = 0; i < tone.length; i++) {
    const t = (s.from + i) / s.rate;
    const level = moving ? droneEnvelope(layer, t) * levelAt(score.drone, t) : steady;
    s.out[i] = (s.out[i] ?? 0) + (tone[i] ?? 0) * level;
  }
}

function mixUnlimited(score: Score, kit: Kit, from: Frames, length: Frames): Float32Array {
  const s: Stretch = { out: new Float32Array(length), from, rate: kit.rate };
  for (const track of score.tracks) {
    addClicks(s, track, score, kit);
    addModel(s, track, score);
  }
  for (const layer of score.drones) addDrone(s, layer, score);
  for (const at of score.chimes)
    addRecording(s, kit.chime, Math.round(at * kit.rate), levelAt(score.click, at), Infinity);
  return s.out;
}

/** The frames [from, from + length) of a score, mono, -1 to 1. */
export function mix(score: Score, kit: Kit, from: Frames, length: Frames): Float32Array {
  // The limiter's blocks lie on a fixed grid, so that chunks of any size agree on its gain.
  const first = Math.floor(from / BLOCK) * BLOCK;
  const last = Math.ceil((from + length) / BLOCK) * BLOCK;
  const limited = limit(mixUnlimited(score, kit, first - MARGIN, last - first + 2 * MARGIN));
  return limited.subarray(from - first, from - first + length);
}
