/** The mix of tones, the model's and the drone's: envelopes, levels and pitches by arithmetic. */
import { beforeAll, describe, expect, it } from 'vitest';
import { ratio } from '../../src/music/time/ratio.ts';
import { PLAIN_DRONE, frequencyOf } from '../../src/music/pitch/tuning.ts';
import type { Drone, SoundCommand, SoundedNote, Span } from '../../src/music/sound/sound-commands.ts';
import { loadKit } from '../../src/audio/mix/click-voices.ts';
import { addTone, wavetable } from '../../src/audio/mix/drone-wavetable.ts';
import { type Kit, mix } from '../../src/audio/mix/mixer.ts';
import { enter } from '../../src/audio/mix/sound-comes-back.ts';
import { RATE, SILENT, near, peak, play, scoreOf } from './mixing.ts';
import { amplitudeAt } from './pitch.ts';
import { spanOf } from './spans.ts';

let kit: Kit;
beforeAll(() => {
  kit = loadKit(RATE);
});

const note = (at: number, slurred: boolean, length = 1): SoundedNote => ({
  at: ratio(at, 4),
  length: ratio(length, 4),
  midi: 69,
  gain: 0.5,
  slurred,
});
const model = (notes: readonly SoundedNote[], bars: number | null = 1): Span => ({
  ...spanOf('a', 60, bars, SILENT),
  model: notes,
});

/** The level of 440 Hz round a moment: the middle of 20 periods' worth, or of fewer where it moves. */
const levelAt = (sound: Float32Array, second: number, periods = 3): number => {
  const half = Math.round(((periods / 440) * RATE) / 2);
  const middle = Math.round(second * RATE);
  return amplitudeAt(sound.slice(middle - half, middle + half), 440, RATE);
};

const modelled = (notes: readonly SoundedNote[], seconds = 3): Float32Array =>
  mix(scoreOf([0, play(model(notes))]), kit, 0, seconds * RATE);

const loudness = (noteGain: number, spanGain: number, click: number): number => {
  const span = { ...model([{ ...note(0, true), gain: noteGain }]), gain: spanGain };
  const score = scoreOf([0, { ask: 'volume', click, drone: 0 }], [4800, play(span)]);
  return levelAt(mix(score, kit, 4800, RATE), 0.7, 20);
};

describe('the model', () => {
  it('is a tone of ten harmonics at most, at its pitch and from its moment on', () => {
    const first = modelled([note(1, false)]);
    expect(peak(first.subarray(0, RATE))).toBe(0);
    const held = first.slice(1.5 * RATE, 1.9 * RATE);
    expect(amplitudeAt(held, 440, RATE)).toBeGreaterThan(0.02);
    for (const h of [2, 5, 10]) expect(amplitudeAt(held, 440 * h, RATE)).toBeGreaterThan(0.001);
    expect(amplitudeAt(held, 440 * 11, RATE)).toBeLessThan(1e-4);
    expect(frequencyOf(69)).toBe(440);
  });

  it('has fewer where ten would not fit below half the rate', () => {
    const high = mix(scoreOf([0, play(model([{ ...note(0, false), midi: 105 }]))]), kit, 0, RATE);
    const held = high.slice(0.3 * RATE, 0.8 * RATE);
    // 3520 Hz: six fit under 0.45 of the rate; the eighth to tenth would come back at 19,840, 16,320 and 12,800 Hz.
    for (const folded of [19_840, 16_320, 12_800]) expect(amplitudeAt(held, folded, RATE)).toBeLessThan(1e-4);
    expect(amplitudeAt(held, 21_120, RATE)).toBeGreaterThan(0.001);
  });

  it('is struck: it rises in 12 ms, and sinks to three quarters', () => {
    const struck = modelled([note(0, false)]);
    const held = levelAt(struck, 0.7, 20);
    expect(levelAt(struck, 0.02) / held).toBeGreaterThan(1.2);
    expect(levelAt(struck, 0.02) / held).toBeLessThan(4 / 3);
    expect(levelAt(struck, 0.09) / held).toBeCloseTo(1 + Math.exp(-0.09 / 0.08) / 3, 1);
    expect(levelAt(struck, 0.4) / held).toBeCloseTo(1, 2);
    expect(peak(struck.subarray(0, 96))).toBeLessThan(0.1 * peak(struck));
    expect(levelAt(struck, 0.006) / levelAt(struck, 0.02)).toBeLessThan(0.7);
    expect(levelAt(struck, 0.006) / levelAt(struck, 0.02)).toBeGreaterThan(0.35);
  });

  it('is slurred: it rises in 20 ms, and is no louder at its beginning', () => {
    const slurred = modelled([note(0, true)]);
    const held = levelAt(slurred, 0.7, 20);
    expect(levelAt(slurred, 0.04) / held).toBeCloseTo(1, 2);
    expect(levelAt(slurred, 0.01) / held).toBeCloseTo(0.5, 1);
    expect(levelAt(modelled([note(0, false)]), 0.7, 20) / held).toBeCloseTo(1, 3);
  });

  it('dies away within 40 ms of its end', () => {
    const one = modelled([note(0, true)]);
    expect(levelAt(one, 0.99) / levelAt(one, 0.7, 20)).toBeCloseTo(1, 1);
    expect(levelAt(one, 1.02) / levelAt(one, 0.7, 20)).toBeCloseTo(0.5, 1);
    expect(peak(one.subarray(1.039 * RATE, 1.0405 * RATE))).toBeLessThan(0.002);
    expect(peak(one.subarray(1.0405 * RATE))).toBe(0);
    expect(peak(one.subarray(1.03 * RATE, 1.035 * RATE))).toBeGreaterThan(0.002);
  });

  it('is as loud as its note, its span and the volume', () => {
    const full = loudness(0.5, 1, 0.5);
    expect(loudness(0.25, 1, 0.5) / full).toBeCloseTo(0.5, 4);
    expect(loudness(0.5, 0.5, 0.5) / full).toBeCloseTo(0.5, 4);
    expect(loudness(0.5, 1, 0.25) / full).toBeCloseTo(0.5, 4);
  });

  it('ends with its span, and with a stop, and begins no note after it', () => {
    const long = mix(scoreOf([0, play(model([note(3, true, 4)]))]), kit, 0, 6 * RATE);
    expect(levelAt(long, 4.02) / levelAt(long, 3.7, 20)).toBeCloseTo(0.5, 1);
    expect(peak(long.subarray(4.0405 * RATE))).toBe(0);
    const stopped = mix(
      scoreOf([0, play(model([note(0, true), note(1, true)]))], [RATE / 2, { ask: 'stop' }]),
      kit,
      0,
      3 * RATE,
    );
    expect(levelAt(stopped, 0.52) / levelAt(stopped, 0.3, 20)).toBeCloseTo(0.5, 1);
    expect(peak(stopped.subarray(0.5405 * RATE))).toBe(0);
    const atOnce = mix(scoreOf([0, play(model([note(1, true)]))], [RATE, { ask: 'stop' }]), kit, 0, 3 * RATE);
    expect(peak(atOnce)).toBe(0);
  });

  it('ends with a stop that comes late too, counted from its own beginning', () => {
    const score = scoreOf([0, play(model([note(1, true, 2)]))], [1.5 * RATE, { ask: 'stop' }]);
    const stopped = mix(score, kit, 0, 4 * RATE);
    expect(levelAt(stopped, 1.52) / levelAt(stopped, 1.3, 20)).toBeCloseTo(0.5, 1);
    expect(peak(stopped.subarray(1.5405 * RATE))).toBe(0);
  });

  it('is the tone of its table from its first frame on, by a held envelope of three quarters', () => {
    // No whole number of periods from the beginning of all.
    const found = mix(scoreOf([4801, play(model([note(1, true)]))]), kit, 4801, 2 * RATE);
    const tone = new Float32Array(RATE / 2);
    addTone(tone, wavetable('string', 10), 440, RATE, 0, 0.5 * 0.5 * 0.75);
    near(found.slice(1.1 * RATE, 1.4 * RATE), tone.slice(0.1 * RATE, 0.4 * RATE), 1e-5);
  });

  it('is the same in a stretch that begins or ends anywhere in it, and adds to what sounds already', () => {
    const notes = model([note(0, false), note(1, true), note(1, true, 2), note(3, false)]);
    const click = spanOf('a', 60, 1, { voice: 'tone' }).click;
    const score = scoreOf([2000, play({ ...notes, click })]);
    const whole = mix(score, kit, 0, 5 * RATE);
    const silent = mix(scoreOf([2000, play(notes)]), kit, 0, 5 * RATE);
    const alone = mix(scoreOf([2000, play({ ...notes, model: [], click })]), kit, 0, 5 * RATE);
    near(
      whole,
      silent.map((x, i) => x + (alone[i] ?? 0)),
      1e-6,
    );
    for (let from = 0; from < 4.9 * RATE; from += 7777)
      near(mix(score, kit, from, 3000), whole.slice(from, from + 3000), 1e-5);
  });

  it('enters with the note that begins where a device enters', () => {
    const score = enter(scoreOf([0, play(model([note(0, true), note(1, true), note(2, true)], null))]), 0.7);
    const found = mix(score, kit, 0, 3 * RATE);
    expect(peak(found.subarray(0, RATE))).toBe(0);
    expect(levelAt(found, 1.5, 20)).toBeGreaterThan(0.02);
  });
});

const drone = (part: Partial<Drone> = {}): SoundCommand => ({
  ask: 'drone',
  drone: { ...PLAIN_DRONE, timbre: 'pure', tonic: 69, gain: 0.8, ...part },
});

const power = (samples: Float32Array): number => samples.reduce((sum, x) => sum + x * x, 0);

const heldDrone = (volume: number, part: Partial<Drone>): Float32Array =>
  mix(scoreOf([0, drone(part)], [0, { ask: 'volume', click: 0, drone: volume }]), kit, RATE, RATE);

describe('the drone', () => {
  it('fades in over 90 ms and out over 25, half-way in the middle', () => {
    const sound = mix(scoreOf([4800, drone()], [48_000, { ask: 'drone', drone: null }]), kit, 0, 60_000);
    const held = levelAt(sound, 0.7, 20);
    expect(levelAt(sound, 0.1 + 0.045) / held).toBeCloseTo(0.5, 1);
    expect(levelAt(sound, 0.1 + 0.095) / held).toBeCloseTo(1, 1);
    expect(levelAt(sound, 0.1 + 0.0225) / held).toBeCloseTo(0.156, 1);
    expect(levelAt(sound, 1.0125) / held).toBeCloseTo(0.5, 1);
    expect(peak(sound.subarray(0, 4800))).toBe(0);
    expect(peak(sound.subarray(48_000 + 1200))).toBe(0);
    expect(peak(sound.subarray(48_000 + 900, 48_000 + 1200))).toBeGreaterThan(0);
  });

  it('is as loud as its gain and the volume, and in several voices as loud together as one', () => {
    const one = heldDrone(0.5, {});
    expect(power(heldDrone(0.25, {})) / power(one)).toBeCloseTo(0.25, 3);
    expect(power(heldDrone(0.5, { gain: 0.4 })) / power(one)).toBeCloseTo(0.25, 3);
    expect(power(heldDrone(0.5, { voices: ['tonic', 'fifth', 'major-third'] })) / power(one)).toBeCloseTo(1, 1);
    expect(amplitudeAt(one, 440, RATE)).toBeGreaterThan(0.17);
    expect(amplitudeAt(one, 440, RATE)).toBeLessThan(0.2);
  });

  it('is the tone of its table, counted from the beginning of all', () => {
    const sound = mix(scoreOf([4800, drone({ voices: ['tonic', 'octave'] })]), kit, RATE, 4800);
    const tone = new Float32Array(4800);
    // The octave softer than the tonic, both together as loud as one alone.
    for (const [frequency, share] of [
      [440, 1],
      [880, 0.45],
    ] as const)
      addTone(tone, wavetable('pure', 40), frequency, RATE, RATE, (0.5 * 0.8 * share) / Math.hypot(1, 0.45));
    near(sound, tone, 1e-4);
  });

  it('follows its volume sample by sample, also in a stretch in which only a part of that lies', () => {
    const score = scoreOf([0, drone()], [48_000, { ask: 'volume', click: 0, drone: 1 }]);
    const sound = mix(score, kit, 0, 2 * RATE);
    const before = levelAt(sound, 0.7, 20);
    expect(levelAt(sound, 1.03) / before).toBeCloseTo(1.5, 1);
    expect(levelAt(sound, 1.5, 20) / before).toBeCloseTo(2, 3);
    for (const [from, length] of [
      [48_000, 2880],
      [47_000, 9600],
      [50_800, 100],
      [49_000, 500],
    ] as const)
      near(mix(score, kit, from, length), sound.slice(from, from + length), 1e-5);
  });

  it('is the same in a stretch that ends or begins where it does', () => {
    const score = scoreOf([4800, drone()], [48_000, { ask: 'drone', drone: null }]);
    const sound = mix(score, kit, 0, 60_000);
    for (const [from, length] of [
      [0, 4800],
      [0, 4801],
      [4800, 4320],
      [9120, 38_880],
      [9119, 38_883],
      [48_000, 1200],
      [49_199, 64],
      [49_200, 64],
    ] as const)
      near(mix(score, kit, from, length), sound.slice(from, from + length), 1e-5);
  });

  it('and the click sound together', () => {
    const click = play(spanOf('a', 60, null, { voice: 'tone' }));
    const [both, one, other] = [
      [[0, drone()] as const, [0, click] as const],
      [[0, drone()] as const],
      [[0, click] as const],
    ].map((commands) => mix(scoreOf(...commands), kit, 0, RATE)) as [Float32Array, Float32Array, Float32Array];
    near(
      both,
      one.map((x, i) => x + (other[i] ?? 0)),
      1e-6,
    );
  });
});
