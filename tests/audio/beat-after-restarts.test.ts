/** The beat goes on in its old time on each device that takes it over. */
import { describe, expect, it } from 'vitest';
import { createFeeder } from '../../src/audio/device/device-feeder.ts';
import { loadKit } from '../../src/audio/mix/click-voices.ts';
import { type Score } from '../../src/audio/mix/score.ts';
import { tapeDevice } from './fake-device.ts';
import { handClock } from './hand-clock.ts';
import { play, scoreOf } from './mixing.ts';
import { spanOf } from './spans.ts';

const RATE = 48_000;
/** Half a frame at 48 kHz in seconds, and what the sums in floating point may add. */
const HALF_A_FRAME = 0.5 / RATE + 1e-7;
const kit = loadKit(RATE);
const SCORE: Score = scoreOf([0, play(spanOf('a', 120, null, { voice: 'stick' }))]);

/** Feeds about every 25 ms, as a busy process does: never twice at the same place of the device's block. */
const pause = (k: number): number => 25 + ((k * 7919) % 97) / 10;

describe('a beat that is taken over fifteen times', () => {
  const clock = handClock();
  const zero = clock.now();
  let heard = 0;
  let at = zero;
  let k = 0;
  const rows: { readonly off: number; readonly strokes: readonly number[] }[] = [];
  for (let restart = 0; restart <= 15; restart++) {
    // A process needs a moment, each time another one, to begin somewhere in its block.
    clock.advance(restart === 0 ? 0 : 300 + restart * 3.7);
    const device = tapeDevice(clock);
    const opened = clock.now();
    clock.advance(13.3);
    const feeder = createFeeder(device, kit, clock.now);
    const old = (): number => heard + (clock.now() - at) / 1000;
    feeder.take(SCORE, old());
    let off = 0;
    while (clock.now() < opened + 4000) {
      clock.advance(pause(k++));
      feeder.feed();
      if (clock.now() < opened + 2900) off = Math.max(off, Math.abs(feeder.heard() - old()));
    }
    const tape = device.tape();
    const strokes: number[] = [];
    tape.forEach((x, i) => {
      const last = strokes.at(-1) ?? -Infinity;
      if (Math.abs(x) > 0.05 && i > 3 * RATE && i - last > 10_000) strokes.push(i);
    });
    // The true moment of a frame: since the device was opened.
    rows.push({ off, strokes: strokes.map((frame) => opened - zero + (frame / RATE) * 1000) });
    heard = feeder.heard();
    at = clock.now();
  }
  /** Where in the beat of 500 ms the strokes of a device stand, against those of the first. */
  const phase = (of: readonly number[]): number => {
    const difference = ((of[0] ?? NaN) - (rows[0]?.strokes[0] ?? NaN)) % 500;
    return difference > 250 ? difference - 500 : difference < -250 ? difference + 500 : difference;
  };

  it('is heard within half a frame of the time before, from the first moment on', () => {
    // The first device begins the time; each other one keeps it.
    for (const { off } of rows.slice(1)) expect(off).toBeLessThan(HALF_A_FRAME);
  });

  it('sounds where it would have sounded: within 1.5 ms of the first, after all of them', () => {
    const phases = rows.map(({ strokes }) => phase(strokes));
    for (const each of phases) expect(Math.abs(each)).toBeLessThan(1.5);
  });
});

it('a beat that begins on a fresh device is not moved while its line is found: each stroke is on its frame', () => {
  const clock = handClock();
  const device = tapeDevice(clock);
  clock.advance(13.3);
  const feeder = createFeeder(device, kit, clock.now);
  feeder.command(play(spanOf('a', 240, null, { voice: 'stick' })));
  feeder.command({ ask: 'volume', click: 0.8, drone: 0 });
  for (let k = 0; clock.now() < 1_004_000; k++) {
    clock.advance(pause(k));
    feeder.feed();
  }
  const found: number[] = [];
  device.tape().forEach((x, i) => {
    if (Math.abs(x) > 0.05 && i - (found.at(-1) ?? -Infinity) > 6000) found.push(i);
  });
  const gaps = found.slice(1).map((frame, i) => frame - (found[i] ?? 0));
  expect(found.length).toBeGreaterThan(10);
  // 60 / 240 s at 48 kHz; the bar's first stroke is another sound, a few frames sooner over the threshold.
  for (const gap of gaps) expect(Math.abs(gap - 12_000)).toBeLessThan(60);
});
