/** The drone as a tuner would hear it: its strongest partial, its pitch, and its level while the pitch is moved. */
import { describe, expect, it } from 'vitest';
import { PLAIN_DRONE } from '../../src/music/pitch/tuning.ts';
import type { Drone, DroneTimbre, SoundCommand } from '../../src/music/sound/sound-commands.ts';
import { loadKit } from '../../src/audio/mix/click-voices.ts';
import { mix } from '../../src/audio/mix/mixer.ts';
import { LONG_ENOUGH, strongestPartial } from './fft.ts';
import { RATE, scoreOf } from './mixing.ts';

const kit = loadKit(RATE);
const TIMBRES: readonly DroneTimbre[] = ['reed', 'organ', 'string', 'pure'];
const asked = (part: Partial<Drone>): SoundCommand => ({ ask: 'drone', drone: { ...PLAIN_DRONE, ...part } });

/** Equal temperament, and the A of the player: mathematics; A4 = 440 Hz is ISO 16:1975, from memory. */
const inTable = (midi: number, a4: number): number => a4 * 2 ** ((midi - 69) / 12);
const cents = (from: number, to: number): number => 1200 * Math.log2(to / from);

const steady = (part: Partial<Drone>): Float32Array => mix(scoreOf([0, asked(part)]), kit, RATE, LONG_ENOUGH);
const heard = (part: Partial<Drone>): number => strongestPartial(steady(part), RATE);

describe('the transform itself', () => {
  it('finds a sine of 261.6256 Hz, middle C (handbook value), within a thousandth of a cent', () => {
    const sine = Float32Array.from({ length: LONG_ENOUGH }, (_, i) => Math.sin((2 * Math.PI * 261.6256 * i) / RATE));
    expect(Math.abs(cents(261.6256, strongestPartial(sine, RATE)))).toBeLessThan(0.001);
  });
});

describe('the strongest partial of a drone', () => {
  // From a low E flat bass's E flat to a piccolo's C: every octave in which an instrument plays.
  const TONICS = [27, 34, 46, 58, 60, 69, 75, 84, 96];

  it.each(TIMBRES)('is its fundamental in %s, in every octave, within 0.05 cents of the table', (timbre) => {
    for (const tonic of TONICS)
      expect(Math.abs(cents(inTable(tonic, 440), heard({ timbre, tonic })))).toBeLessThan(0.05);
  });

  it('follows the A of the player', () => {
    for (const a4 of [415, 438.5, 442, 466])
      expect(Math.abs(cents(inTable(58, a4), heard({ tonic: 58, a4 })))).toBeLessThan(0.05);
  });

  it.each(TIMBRES)('is the tonic in %s, whatever voices stand above it', (timbre) => {
    const above: readonly Drone['voices'][] = [
      ['tonic', 'octave'],
      ['tonic', 'fifth'],
      ['tonic', 'major-third'],
      ['tonic', 'fifth', 'octave'],
      ['tonic', 'major-third', 'fifth', 'octave'],
    ];
    for (const voices of above)
      for (const tonic of [34, 46, 58, 72])
        expect(Math.abs(cents(inTable(tonic, 440), heard({ timbre, tonic, voices })))).toBeLessThan(0.05);
  });

  // Just intervals in cents: mathematics, any handbook of tuning.
  it.each([
    ['octave', 1200],
    ['fifth', 701.955],
    ['major-third', 386.314],
    ['minor-third', 315.641],
  ] as const)('of the %s alone lies %f cents above the tonic', (voice, above) => {
    for (const timbre of TIMBRES)
      expect(Math.abs(cents(inTable(46, 440), heard({ timbre, tonic: 46, voices: [voice] })) - above)).toBeLessThan(
        0.05,
      );
  });
});

describe('a drone whose pitch is moved', () => {
  const AT = RATE;
  const moved = (timbre: DroneTimbre, from: number, to: number): Float32Array =>
    mix(scoreOf([0, asked({ timbre, tonic: from })], [AT, asked({ timbre, tonic: to })]), kit, 0, 2 * RATE);

  /** Levels in decibels of stretches of whole periods, about 50 ms each. */
  function levels(sound: Float32Array, from: number, to: number): readonly number[] {
    const window = Math.round(0.05 * RATE);
    const found: number[] = [];
    for (let at = from; at + window <= to; at += 480) {
      const part = sound.subarray(at, at + window);
      found.push(10 * Math.log10(part.reduce((sum, x) => sum + x * x, 0) / window));
    }
    return found;
  }

  it.each(TIMBRES)('%s: no step in its level of more than 1 dB, up, down or back', (timbre) => {
    for (const [from, to] of [
      [46, 47],
      [47, 46],
      [58, 57],
      [58, 60],
      [70, 69],
      [58, 65],
      [46, 58],
    ] as const) {
      const sound = moved(timbre, from, to);
      const all = levels(sound, AT / 2, AT + AT / 2);
      expect(Math.max(...all) - Math.min(...all)).toBeLessThan(1);
    }
  });

  it('makes no click: no sample jumps farther from its neighbour than in the steady tones', () => {
    const jump = (sound: Float32Array, from: number, to: number): number => {
      let most = 0;
      for (let i = from + 1; i < to; i++) most = Math.max(most, Math.abs((sound[i] ?? 0) - (sound[i - 1] ?? 0)));
      return most;
    };
    for (const timbre of TIMBRES) {
      const sound = moved(timbre, 58, 59);
      const still = Math.max(jump(sound, AT / 2, AT), jump(sound, AT + 9600, AT + 19_200));
      expect(jump(sound, AT, AT + 9600)).toBeLessThan(1.1 * still);
    }
  });

  it('stands on its new pitch within a tenth of a second, to 0.05 cents', () => {
    const score = scoreOf([0, asked({ tonic: 58 })], [AT, asked({ tonic: 59 })], [2 * AT, asked({ tonic: 58 })]);
    const after = (frame: number): number => strongestPartial(mix(score, kit, frame + 4800, LONG_ENOUGH), RATE);
    const short = scoreOf([0, asked({ tonic: 58 })], [AT, asked({ tonic: 59 })]);
    expect(
      Math.abs(cents(inTable(59, 440), strongestPartial(mix(short, kit, AT + 4800, LONG_ENOUGH), RATE))),
    ).toBeLessThan(0.05);
    expect(Math.abs(cents(inTable(58, 440), after(2 * AT)))).toBeLessThan(0.05);
  });

  it('is the same whether it is mixed in one or in pieces, two moves in one glide included', () => {
    const score = scoreOf([0, asked({ tonic: 58 })], [AT, asked({ tonic: 59 })], [AT + 960, asked({ tonic: 60 })]);
    const whole = mix(score, kit, 0, 2 * AT);
    for (let at = 0; at < 2 * AT; at += 7777) {
      const length = Math.min(7777, 2 * AT - at);
      const piece = mix(score, kit, at, length);
      piece.forEach((x, i) => expect(Math.abs(x - (whole[at + i] ?? 0))).toBeLessThan(1e-4));
    }
  });

  it('is not begun anew where the same is asked for again', () => {
    const once = mix(scoreOf([0, asked({})]), kit, 0, 2 * AT);
    const twice = mix(scoreOf([0, asked({})], [AT, asked({})]), kit, 0, 2 * AT);
    twice.forEach((x, i) => expect(x === once[i] || Math.abs(x - (once[i] ?? 0)) < 1e-5).toBe(true));
  });
});
