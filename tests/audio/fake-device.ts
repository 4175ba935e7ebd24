/** A device that takes sound by a hand-moved clock, and a child process that is none. */
import type { Device } from '../../src/audio/device/device.ts';
import { type Feeder, createFeeder } from '../../src/audio/device/device-feeder.ts';
import type { Connect } from '../../src/audio/process/child-link.ts';
import type { Kit } from '../../src/audio/mix/mixer.ts';
import type { FromChild } from '../../src/audio/process/protocol.ts';
import type { HandClock } from './hand-clock.ts';

const RATE = 48_000;

export interface TapeDevice extends Device {
  /** What was played up to now. */
  readonly tape: () => Float32Array;
}

/** Plays onto a tape; takes sound in blocks of 1024 frames as a card does. */
export function tapeDevice(clock: HandClock, rate = RATE): TapeDevice {
  const opened = clock.now();
  const tape = new Float32Array(rate * 120);
  const position = (): number => Math.floor((((clock.now() - opened) / 1000) * rate) / 1024) * 1024;
  return {
    backEnd: 'web-audio',
    name: 'tape',
    rate,
    latency: 0.03,
    position,
    margin: () => 1536,
    queue: (from, samples) => tape.set(samples, from),
    revoke: (from) => void tape.fill(0, from),
    tape: () => tape.subarray(0, position()),
  };
}

export interface FakeChildren {
  readonly connect: Connect;
  /** The device of the child that lives, if any. */
  device(): TapeDevice | null;
  /** The child ends without a word. */
  crash(): void;
  /** The child stops talking, as one that hangs. */
  hang(): void;
  /** Whether the next child finds a device. */
  available: boolean;
  started: number;
}

const nothing = (): void => {};

/** Children in this process; messages are delivered at once. */
export function fakeChildren(clock: HandClock, kit: Kit): FakeChildren {
  let device: TapeDevice | null = null;
  let crash = nothing;
  let hung = false;
  const children: FakeChildren = {
    available: true,
    started: 0,
    device: () => device,
    crash: () => crash(),
    hang: () => {
      hung = true;
    },
    connect(_settings, hear, ended) {
      children.started++;
      hung = false;
      let alive = true;
      let feeder: Feeder | null = null;
      const tell = (message: FromChild): void => {
        if (alive && !hung) hear(message);
      };
      const beat = (): void => {
        if (!alive) return;
        feeder?.feed();
        if (feeder) tell({ from: 'position', heard: feeder.heard(), at: clock.now() });
        clock.wake(50, beat);
      };
      clock.wake(100, () => {
        if (!children.available) return tell({ from: 'failed' });
        device = tapeDevice(clock);
        feeder = createFeeder(device, kit, clock.now);
        tell({ from: 'opened', output: { backEnd: 'web-audio', device: 'tape', rate: RATE, latency: 0.03 } });
        beat();
      });
      crash = () => {
        alive = false;
        device = null;
        ended();
      };
      return {
        send(message) {
          if (!alive || hung || !feeder) return;
          if (message.to === 'take') feeder.take(message.score, message.heard + (clock.now() - message.at) / 1000);
          if (message.to === 'do') tell({ from: 'done', id: message.id, now: feeder.command(message.command) });
        },
        kill() {
          alive = false;
          device = null;
        },
      };
    },
  };
  return children;
}
