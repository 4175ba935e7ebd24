import { Writable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { createFeeder } from '../../src/audio/device/device-feeder.ts';
import * as speaker from '../../src/audio/device/speaker-device.ts';
import { createSteadyPosition } from '../../src/audio/device/steady-position.ts';
import type { AudioContext } from '../../src/audio/device/web-audio-library.ts';
import * as webAudio from '../../src/audio/device/web-audio-device.ts';
import { loadKit } from '../../src/audio/mix/click-voices.ts';
import { spanOf } from './spans.ts';

interface Played {
  readonly samples: Float32Array;
  readonly from: number;
  to: number;
  stops: number;
  connected: boolean;
}

/** A context moved by hand that notes what it is told; it throws where the W3C Web Audio API says so. */
function fakeContext(rate: number) {
  const played: Played[] = [];
  const noTimeBelowZero = (when: number): number => {
    if (when < 0) throw new RangeError('a time below zero');
    return when * rate;
  };
  const context = {
    sampleRate: rate,
    currentTime: 0,
    destination: { connect: () => undefined, disconnect: () => {} },
    createBuffer: (_channels: number, frames: number) => {
      const samples = new Float32Array(frames);
      return { samples, copyToChannel: (from: Float32Array) => samples.set(from) };
    },
    createBufferSource() {
      let note: Played | null = null;
      return {
        buffer: null as { samples: Float32Array } | null,
        connect: () => undefined,
        disconnect: () => void (note && (note.connected = false)),
        start(when: number) {
          const samples = this.buffer?.samples ?? new Float32Array();
          const from = noTimeBelowZero(when);
          note = { samples, from, to: from + samples.length, stops: 0, connected: true };
          played.push(note);
        },
        stop(when: number) {
          if (!note) throw new Error('stopped before it was started');
          Object.assign(note, { to: noTimeBelowZero(when), stops: note.stops + 1 });
        },
      };
    },
  };
  return { context, played, device: webAudio.deviceOn(context as unknown as AudioContext, 'a card', 'low') };
}

const ramp = (length: number, from = 1): Float32Array => Float32Array.from({ length }, (_, i) => (from + i) / 1000);

describe('the device of the Web Audio library', () => {
  it('begins a chunk on its very frame: frame / rate, exactly', () => {
    const { device, played } = fakeContext(48_000);
    device.queue(12_345, ramp(100));
    expect(played[0]?.from).toBe((12_345 / 48_000) * 48_000);
    expect([...(played[0]?.samples ?? [])]).toEqual([...ramp(100)]);
    expect(device).toMatchObject({ backEnd: 'web-audio', name: 'a card', rate: 48_000, latency: 0.06 });
  });

  it('counts positions in whole frames', () => {
    const { device, context } = fakeContext(44_100);
    for (const frames of [0, 1, 441, 100_003]) {
      context.currentTime = frames / 44_100 + 1e-9;
      expect(device.position()).toBe(frames);
    }
  });

  it('forgets what is queued from a frame on: what was begun is cut there, once, the rest never sounds', () => {
    const { device, played } = fakeContext(48_000);
    for (const from of [0, 1000, 2000]) device.queue(from, ramp(1000));
    device.revoke(1500);
    expect(played.map(({ from, to }) => [from, Math.round(to)])).toEqual([
      [0, 1000],
      [1000, 1500],
      [2000, 2000],
    ]);
    expect(played.map(({ connected }) => connected)).toEqual([true, true, false]);
    device.revoke(1500);
    device.revoke(1700);
    expect(played.map(({ stops }) => stops)).toEqual([0, 1, 1]);
    device.revoke(1200);
    expect(Math.round(played[1]?.to ?? 0)).toBe(1200);
  });

  it('stops nothing before the beginning of time', () => {
    const { device, played } = fakeContext(48_000);
    device.queue(0, ramp(1000));
    device.revoke(-5);
    expect(played[0]).toMatchObject({ to: 0, connected: false });
  });

  it('needs a block and ten milliseconds to change anything, and learns how large its blocks are', () => {
    const { device, context } = fakeContext(48_000);
    expect(device.margin()).toBe(1200 + 480);
    for (const frames of [4800, 4800 + 1100, 5900 + 3000, 8900 + 600]) {
      context.currentTime = frames / 48_000;
      device.position();
    }
    expect(device.margin()).toBe(3000 + 480);
    // A pause is no block.
    context.currentTime = 2;
    device.position();
    expect(device.margin()).toBe(3000 + 480);
  });

  it('takes a first reading for no block', () => {
    const { device, context } = fakeContext(48_000);
    context.currentTime = 0.05;
    device.position();
    expect(device.margin()).toBe(1200 + 480);
  });

  it('never needs more than an eighth of a second, in whole frames at any rate', () => {
    const { device, context } = fakeContext(44_100);
    // Blocks that grow, as on a machine that is ever busier.
    for (let frames = 4000, block = 4000; frames < 90_000; frames += block, block += 500) {
      context.currentTime = frames / 44_100;
      device.position();
    }
    expect(Number.isInteger(device.margin())).toBe(true);
    expect(Math.abs(device.margin() - (44_100 / 8 + 441))).toBeLessThan(1);
    const feeder = createFeeder(device, loadKit(44_100), () => context.currentTime * 1000);
    expect(() => feeder.command({ ask: 'play', spans: [spanOf('a', 120, 1)] })).not.toThrow();
  });
});

/** A stream that takes a block each time it is told to, and keeps what it took. */
function fakeStream() {
  const taken: number[] = [];
  let takeOn: (() => void) | null = null;
  const stream = new Writable({
    highWaterMark: 1,
    write(bytes: Buffer, _encoding, done) {
      for (let i = 0; i < bytes.length; i += 2) taken.push(bytes.readInt16LE(i));
      takeOn = done;
    },
  });
  const next = async (blocks: number): Promise<void> => {
    for (let i = 0; i < blocks; i++) {
      takeOn?.();
      await new Promise((resolve) => setImmediate(resolve));
    }
  };
  return { stream, taken, next, device: speaker.deviceOn(stream) };
}
const as16 = (samples: Float32Array): readonly number[] => [...samples].map((x) => Math.round(x * 32_767));

describe('the device of the package speaker', () => {
  it('writes what is queued on its frames, silence between, in blocks of 20 ms', async () => {
    const { taken, next, device } = fakeStream();
    expect(device.position()).toBe(960);
    device.queue(1000, ramp(700));
    device.queue(2500, ramp(900));
    await next(4);
    expect(taken).toHaveLength(5 * 960);
    expect(device.position()).toBe(5 * 960);
    expect(taken.slice(1000, 1700)).toEqual(as16(ramp(700)));
    expect(taken.slice(2500, 3400)).toEqual(as16(ramp(900)));
    expect([...taken.slice(0, 1000), ...taken.slice(1700, 2500), ...taken.slice(3400)].every((x) => x === 0)).toBe(
      true,
    );
  });

  it('forgets what is queued from a frame on', async () => {
    const { taken, next, device } = fakeStream();
    device.queue(1000, ramp(700));
    device.queue(2000, ramp(700));
    device.revoke(1300);
    device.queue(1400, ramp(50));
    await next(4);
    expect(taken.slice(1000, 1300)).toEqual(as16(ramp(300)));
    expect(taken.slice(1300, 1400).every((x) => x === 0)).toBe(true);
    expect(taken.slice(1400, 1450)).toEqual(as16(ramp(50)));
    expect(taken.slice(1450).every((x) => x === 0)).toBe(true);
  });

  it('takes no more sound once it has failed', async () => {
    const { stream, next, device } = fakeStream();
    stream.emit('error', new Error('gone'));
    const before = device.position();
    await next(3);
    expect(device.position()).toBe(before);
    expect(device).toMatchObject({ backEnd: 'speaker', rate: 48_000, latency: 0.6 });
    expect(device.margin()).toBe(960);
  });
});

describe('a steady position', () => {
  const RATE = 48_000;
  /** Reads a device that takes blocks of `block` frames and lags `lag` frames behind the clock, each 25 ms. */
  const readings = (from: number, to: number, block: number, lag: (ms: number) => number) =>
    Array.from({ length: Math.floor((to - from) / 25) }, (_, k) => {
      const now = from + 25 * k;
      return { now, position: Math.floor(((now / 1000) * RATE - lag(now)) / block) * block };
    });

  it('moves evenly where the device moves in blocks of 25 ms or 21.3 ms', () => {
    for (const block of [1200, 1024]) {
      const steady = createSteadyPosition(RATE);
      const at = readings(1_000_000, 1_008_000, block, () => 0).map(({ now, position }) => ({
        lead: steady.at(position, now) - (now / 1000) * RATE,
        now,
      }));
      const late = at.filter(({ now }) => now > 1_003_000).map(({ lead }) => lead);
      expect(Math.max(...late) - Math.min(...late)).toBeLessThanOrEqual(30);
      expect(Math.max(...late)).toBeLessThanOrEqual(0);
    }
  });

  it('never lies behind the device', () => {
    const steady = createSteadyPosition(RATE);
    for (const { now, position } of readings(0, 5000, 1024, () => 0))
      expect(steady.at(position, now)).toBeGreaterThanOrEqual(position);
  });

  it('has forgotten after three seconds where a device was that fell behind, and not after two', () => {
    const steady = createSteadyPosition(RATE);
    const leads = readings(0, 12_000, 480, (ms) => (ms > 6000 ? 4800 : 0)).map(({ now, position }) => ({
      lead: steady.at(position, now) - (now / 1000) * RATE,
      now,
    }));
    const leadAt = (ms: number): number => leads.findLast(({ now }) => now <= ms)?.lead ?? NaN;
    expect(leadAt(5900)).toBeGreaterThan(-481);
    expect(leadAt(8000)).toBeGreaterThan(-481);
    expect(leadAt(9200)).toBeLessThan(-4700);
    expect(leadAt(11_900)).toBeLessThan(-4700);
  });

  it('starts anew after a pause in the readings that was longer than it remembers', () => {
    const steady = createSteadyPosition(RATE);
    steady.at(48_000, 1000);
    expect(steady.at(0, 20_000)).toBe(0);
    expect(steady.at(480, 20_010)).toBe(480);
  });
});
