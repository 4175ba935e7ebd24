import { beforeAll, describe, expect, it } from 'vitest';
import { momentOf } from '../../src/music/time/exact-seconds.ts';
import { ratio } from '../../src/music/time/ratio.ts';
import type { Drone, SoundCommand } from '../../src/music/sound/sound-commands.ts';
import { centsBetween } from '../music/cents.ts';
import { PLAIN_DRONE, frequencyOf } from '../../src/music/pitch/tuning.ts';
import { CEILING } from '../../src/audio/mix/limiter.ts';
import { type Kit, mix } from '../../src/audio/mix/mixer.ts';
import { EMPTY_SCORE, type Score, applyCommand } from '../../src/audio/mix/score.ts';
import { loadKit } from '../../src/audio/mix/click-voices.ts';
import { amplitudeAt, partialNear } from './pitch.ts';
import { spanOf } from './spans.ts';

const RATE = 48_000;
let kit: Kit;
beforeAll(() => {
  kit = loadKit(RATE);
});

/** A score with each command taking effect at its frame. */
const scoreOf = (...commands: readonly (readonly [number, SoundCommand])[]): Score =>
  commands.reduce(
    (score, [frame, command]) => applyCommand(score, command, { heard: frame / RATE, earliest: momentOf(frame, RATE) }),
    EMPTY_SCORE,
  );

const drone = (part: Partial<Drone> = {}): SoundCommand => ({
  ask: 'drone',
  drone: { ...PLAIN_DRONE, gain: 1, ...part },
});
const play = (...spans: readonly ReturnType<typeof spanOf>[]): SoundCommand => ({ ask: 'play', spans });
const peak = (samples: Float32Array): number => samples.reduce((m, x) => Math.max(m, Math.abs(x)), 0);
const jump = (samples: Float32Array): number =>
  samples.reduce((m, x, i) => Math.max(m, i === 0 ? 0 : Math.abs(x - (samples[i - 1] ?? 0))), 0);

const note = (at: number, midi: number, slurred: boolean) => ({
  at: ratio(at, 4),
  length: ratio(1, 4),
  midi,
  gain: 0.5,
  slurred,
});

const steady = (part: Partial<Drone>): Float32Array => mix(scoreOf([0, drone(part)]), kit, RATE, RATE);

describe('the mix', () => {
  it('has every stroke on its frame: start + k x 60 / 137 s (formula), rising from zero there', () => {
    const sound = mix(scoreOf([1000, play(spanOf('a', 137, null))]), kit, 0, 10 * RATE);
    const onsets: number[] = [];
    let quiet = Infinity;
    sound.forEach((x, i) => {
      // The first frame of a stroke is zero, the next is not.
      if (x !== 0 && quiet > 5000) onsets.push(i - 1);
      quiet = x === 0 ? quiet + 1 : 0;
    });
    expect(onsets).toHaveLength(Math.ceil(((10 - 1000 / RATE) * 137) / 60));
    onsets.forEach((frame, k) => expect(Math.abs(frame - 1000 - (k * 60 * RATE) / 137)).toBeLessThanOrEqual(0.5));
  });

  it('is the same in chunks of any size as in one piece', () => {
    const score = scoreOf(
      [0, drone({ voices: ['tonic', 'fifth', 'octave'] })],
      [0, play(spanOf('a', 208, null, { subdivision: 4 }))],
      [30_000, { ask: 'volume', click: 1, drone: 1 }],
    );
    const whole = mix(score, kit, 0, 96_000);
    for (const size of [9600, 1024, 977]) {
      for (let from = 0; from + size <= 96_000; from += size) {
        const piece = mix(score, kit, from, size);
        const worst = piece.reduce((m, x, i) => Math.max(m, Math.abs(x - (whole[from + i] ?? 0))), 0);
        expect(worst).toBeLessThan(1e-5);
      }
    }
  });

  it('never passes the ceiling, however much sounds at once', () => {
    const voices: Drone['voices'] = ['tonic', 'octave', 'fifth', 'major-third', 'minor-third'];
    const loud = scoreOf(
      [0, { ask: 'volume', click: 1, drone: 1 }],
      [0, drone({ voices })],
      [0, play(spanOf('a', 400, null, { subdivision: 8 }))],
      [0, { ask: 'chime' }],
    );
    expect(peak(mix(loud, kit, 0, 3 * RATE))).toBeLessThanOrEqual(CEILING + 1e-6);
    expect(peak(mix(loud, kit, 0, 3 * RATE))).toBeGreaterThan(CEILING * 0.9);
  });

  it('is silent within a few milliseconds of a stop, while the drone goes on', () => {
    const stopped = scoreOf([0, play(spanOf('a', 300, null))], [40_000, { ask: 'stop' }]);
    expect(peak(mix(stopped, kit, 40_000 + 0.006 * RATE, RATE))).toBe(0);
    const droning = scoreOf([0, drone()], [0, play(spanOf('a', 300, null))], [40_000, { ask: 'stop' }]);
    expect(peak(mix(droning, kit, 41_000, RATE))).toBeGreaterThan(0.05);
  });

  it('changes the tempo at a bar line without a gap or an overlap', () => {
    const chain = scoreOf([0, play(spanOf('a', 120, 1), spanOf('b', 90, 1), spanOf('c', 100, 1))]);
    const sound = mix(chain, kit, 0, 8 * RATE);
    for (const at of [2, 2 + 8 / 3, 2 + 8 / 3 + 2.4]) {
      const frame = Math.round(at * RATE);
      // It rises from zero, and is there a tenth of a millisecond later.
      if (at < 7) expect(Math.abs(sound[frame + 5] ?? 0)).toBeGreaterThan(0.1);
      expect(sound[frame - 1]).toBe(0);
    }
  });

  it('plays a model between its notes without a jump', () => {
    const span = {
      ...spanOf('a', 120, null, { levels: { bar: 0, group: 0, beat: 0, subdivision: 0 } }),
      model: [note(0, 60, false), note(1, 62, true), note(2, 64, true), note(3, 65, false)],
    };
    const sound = mix(scoreOf([0, play(span)]), kit, 0, 4 * RATE);
    expect(peak(sound)).toBeGreaterThan(0.02);
    expect(jump(sound)).toBeLessThan(0.06);
    for (const [k, midi] of [
      [0, 60],
      [1, 62],
      [4, 60],
      [7, 65],
    ] as const) {
      const piece = sound.slice(k * 24_000 + 3000, k * 24_000 + 22_000);
      expect(Math.abs(centsBetween(frequencyOf(midi), partialNear(piece, frequencyOf(midi), RATE)))).toBeLessThan(3);
    }
  });

  it('chimes at the next bar line', () => {
    const chimed = scoreOf(
      [0, play(spanOf('a', 120, null, { levels: { bar: 0, group: 0, beat: 0, subdivision: 0 } }))],
      [30_000, { ask: 'chime' }],
    );
    expect(peak(mix(chimed, kit, 0, 95_999))).toBe(0);
    expect(peak(mix(chimed, kit, 96_000, 9600))).toBeGreaterThan(0.1);
  });
});

describe('the drone', () => {
  it.each(['reed', 'organ', 'string', 'pure'] as const)(
    'as %s sounds its tonic, fifth and third within a cent of the just and the equal table (mathematics)',
    (timbre) => {
      const f = frequencyOf(58);
      const tables = { just: [1, 3 / 2, 5 / 4], equal: [1, 2 ** (7 / 12), 2 ** (4 / 12)] } as const;
      for (const tuning of ['just', 'equal'] as const) {
        const sound = steady({ timbre, tuning, voices: ['tonic', 'fifth', 'major-third'] });
        for (const interval of tables[tuning]) {
          expect(Math.abs(centsBetween(f * interval, partialNear(sound, f * interval, RATE)))).toBeLessThan(1);
        }
      }
    },
  );

  it('is rich in harmonics, so that intonation can be heard, but for the pure one', () => {
    const f = frequencyOf(58);
    const share = (timbre: Drone['timbre'], h: number): number => {
      const sound = steady({ timbre });
      return amplitudeAt(sound, f * h, RATE) / amplitudeAt(sound, f, RATE);
    };
    for (const timbre of ['reed', 'organ', 'string'] as const) {
      for (const h of [2, 3, 4]) expect(share(timbre, h)).toBeGreaterThan(0.15);
    }
    for (const h of [2, 3, 4]) expect(share('pure', h)).toBeLessThan(0.15);
  });

  it('is as steady after ten hours as at the start', () => {
    const late = mix(scoreOf([0, drone({ timbre: 'pure' })]), kit, 36_000 * RATE, RATE);
    expect(Math.abs(centsBetween(frequencyOf(58), partialNear(late, frequencyOf(58), RATE)))).toBeLessThan(0.1);
    expect(jump(late)).toBeLessThan(0.05);
  });

  it('fades in and out, and from key to key, without a click of its own', () => {
    const change = scoreOf(
      [4800, drone({ timbre: 'pure' })],
      [48_000, drone({ timbre: 'pure', tonic: 63 })],
      [96_000, { ask: 'drone', drone: null }],
    );
    const sound = mix(change, kit, 0, 3 * RATE);
    // At 311 Hz the sum of the partials moves by at most 2 pi f / rate x (1 + 0.24 + 0.18 + 0.12) of its peak from
    // frame to frame.
    expect(jump(sound)).toBeLessThan(peak(sound) * 0.07);
    expect(peak(sound.slice(0, 4800))).toBe(0);
    expect(peak(sound.slice(96_000 + 0.1 * RATE))).toBe(0);
  });
});
