/** The mix of recordings, sample for sample. */
import { beforeAll, describe, expect, it } from 'vitest';
import { loadKit } from '../../src/audio/mix/click-voices.ts';
import { type Kit, mix } from '../../src/audio/mix/mixer.ts';
import { enter } from '../../src/audio/mix/sound-comes-back.ts';
import { RATE, near, peak, play, scoreOf } from './mixing.ts';
import { spanOf } from './spans.ts';

let kit: Kit;
beforeAll(() => {
  kit = loadKit(RATE);
});

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
