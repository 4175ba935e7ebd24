/** The mix, sample for sample: what a recording, an envelope or a level makes of each frame, by arithmetic. */
import { enter } from '../../src/audio/mix/sound-comes-back.ts';
import { beforeAll, describe, expect, it } from 'vitest';
import { momentOf } from '../../src/music/time/exact-seconds.ts';
import { ratio } from '../../src/music/time/ratio.ts';
import { PLAIN_DRONE, frequencyOf } from '../../src/music/pitch/tuning.ts';
import type { Click, Drone, SoundCommand, SoundedNote, Span } from '../../src/music/sound/sound-commands.ts';
import { loadKit } from '../../src/audio/mix/click-voices.ts';
import { type Kit, mix } from '../../src/audio/mix/mixer.ts';
import { EMPTY_SCORE, type Score, applyCommand } from '../../src/audio/mix/score.ts';
import { amplitudeAt } from './pitch.ts';
import { spanOf } from './spans.ts';

const RATE = 48_000;
const SILENT: Partial<Click> = { levels: { bar: 0, group: 0, beat: 0, subdivision: 0 } };
let kit: Kit;
beforeAll(() => {
  kit = loadKit(RATE);
});

/** A score with each command taking effect at its frame; click and drone at half level from the start. */
const scoreOf = (...commands: readonly (readonly [number, SoundCommand])[]): Score =>
  commands.reduce(
    (score, [frame, command]) => applyCommand(score, command, { heard: frame / RATE, earliest: momentOf(frame, RATE) }),
    { ...EMPTY_SCORE, drone: { at: -1, from: 0.5, to: 0.5 } } as Score,
  );
const play = (...spans: readonly Span[]): SoundCommand => ({ ask: 'play', spans });
const peak = (samples: Float32Array): number => samples.reduce((m, x) => Math.max(m, Math.abs(x)), 0);

/** A recording at a level from a frame on, in a stretch of silence that begins at `from`. */
function laid(length: number, from: number, ...laidDown: readonly (readonly [number, Float32Array, number])[]) {
  const out = new Float32Array(length);
  for (const [at, sound, level] of laidDown)
    sound.forEach((x, i) => {
      const k = at + i - from;
      if (k >= 0 && k < length) out[k] = (out[k] ?? 0) + x * level;
    });
  return out;
}
const near = (found: Float32Array, expected: Float32Array, within = 1e-6): void => {
  expect(found).toHaveLength(expected.length);
  expect(found.reduce((m, x, i) => Math.max(m, Math.abs(x - (expected[i] ?? 0))), 0)).toBeLessThan(within);
};

const strokeAt = (k: number): number => 5000 + 12_000 * k;

describe('the click', () => {
  const levels = { bar: 1, group: 0.9, beat: 0.6, subdivision: 0.3 };

  it('is its recording, at the level of its layer, its span and the volume', () => {
    const span = { ...spanOf('a', 120, 1, { levels, subdivision: 2, voice: 'tone' }), gain: 0.8 };
    const [high, low] = [kit.click('tone', 'bar'), kit.click('tone', 'beat')];
    const expected = laid(
      RATE * 2,
      0,
      [strokeAt(0), high, 0.4],
      ...[2, 4, 6].map((k) => [strokeAt(k), low, 0.24] as const),
      ...[1, 3, 5, 7].map((k) => [strokeAt(k), low, 0.12] as const),
    );
    near(mix(scoreOf([5000, play(span)]), kit, 0, RATE * 2), expected);
  });

  it('sounds on where a stretch begins in the middle of it, or ends there', () => {
    const score = scoreOf([5000, play(spanOf('a', 120, 1, { voice: 'bell' }))]);
    const bell = kit.click('bell', 'bar');
    for (const [from, length] of [
      [5001, 100],
      [4990, 20],
      [5000 + bell.length - 1, 50],
      [5000 + bell.length, 50],
    ] as const)
      near(mix(score, kit, from, length), laid(length, from, [5000, bell, 0.5]));
  });

  it('has its level from the moment at which it begins, and keeps it', () => {
    const span = spanOf('a', 60, null, { voice: 'bell' });
    const score = scoreOf([0, play(span)], [1440, { ask: 'volume', click: 1, drone: 0 }]);
    const bell = kit.click('bell', 'bar');
    near(mix(score, kit, 0, 9000), laid(9000, 0, [0, bell, 0.5]));
    const low = kit.click('bell', 'beat');
    near(mix(score, kit, 47_000, 9000), laid(9000, 47_000, [48_000, low, 0.6]));
    const rising = scoreOf([0, play(span)], [48_000 - 1440, { ask: 'volume', click: 1, drone: 0 }]);
    near(mix(rising, kit, 47_000, 9000), laid(9000, 47_000, [48_000, low, 0.75 * 0.6]));
  });

  it('fades within 6 ms of a stop, in a straight line, and begins no more', () => {
    const score = scoreOf([0, play(spanOf('a', 60, null, { voice: 'bell' }))], [1000, { ask: 'stop' }]);
    const bell = kit.click('bell', 'bar').map((x, i) => 0.5 * x * Math.min(1, Math.max(0, 1 - (i - 1000) / 288)));
    near(mix(score, kit, 0, 9000), laid(9000, 0, [0, bell, 1]));
    for (const stop of [48_000, 47_999]) {
      const before = scoreOf([0, play(spanOf('a', 60, null))], [stop, { ask: 'stop' }]);
      expect(peak(mix(before, kit, 40_000, 20_000))).toBe(0);
    }
    const after = scoreOf([0, play(spanOf('a', 60, null))], [48_001, { ask: 'stop' }]);
    expect(peak(mix(after, kit, 40_000, 20_000))).toBeGreaterThan(0);
  });

  it('enters where a device that came back enters, with the stroke of that moment', () => {
    const score = enter(scoreOf([0, play(spanOf('a', 120, null, { voice: 'tone' }))]), 2.1);
    expect(peak(mix(score, kit, 0, 2.5 * RATE))).toBe(0);
    near(mix(score, kit, 2.5 * RATE, 4000), laid(4000, 0, [0, kit.click('tone', 'beat'), 0.3]));
  });

  it('adds to what sounds already', () => {
    const one = spanOf('a', 60, null, { voice: 'drum' });
    const both = scoreOf([0, play({ ...one, gain: 0.3 })], [2400, play({ ...one, gain: 0.3 })]);
    const drum = kit.click('drum', 'bar');
    const faded = drum.map((x, i) => x * Math.min(1, Math.max(0, 1 - (i - 2400) / 288)));
    near(mix(both, kit, 0, 9000), laid(9000, 0, [0, faded, 0.15], [2400, drum, 0.15]));
  });
});

describe('the chime', () => {
  it('is its recording at the level of the click, to its end', () => {
    const score = scoreOf([5000, { ask: 'chime' }]);
    near(mix(score, kit, 0, 2 * RATE), laid(2 * RATE, 0, [5000, kit.chime, 0.5]));
  });
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
    const held = (volume: number, part: Partial<Drone>): Float32Array =>
      mix(scoreOf([0, drone(part)], [0, { ask: 'volume', click: 0, drone: volume }]), kit, RATE, RATE);
    const one = held(0.5, {});
    expect(power(held(0.25, {})) / power(one)).toBeCloseTo(0.25, 3);
    expect(power(held(0.5, { gain: 0.4 })) / power(one)).toBeCloseTo(0.25, 3);
    expect(power(held(0.5, { voices: ['tonic', 'fifth', 'major-third'] })) / power(one)).toBeCloseTo(1, 1);
    expect(amplitudeAt(one, 440, RATE)).toBeGreaterThan(0.17);
    expect(amplitudeAt(one, 440, RATE)).toBeLessThan(0.2);
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
