/** What the client does with its process, its timers and its listeners. What is decided: `sound-connection.test.ts`. */
import { describe, expect, it } from 'vitest';
import type { SoundReport } from '../../src/music/sound/sound-commands.ts';
import type { Link } from '../../src/audio/process/child-link.ts';
import { type SoundOptions, createSound } from '../../src/audio/process/client.ts';
import { createSilentSound } from '../../src/audio/process/silent-sound.ts';
import type { SoundClock } from '../../src/audio/process/sound-clock.ts';
import type { DeviceSettings, FromChild, ToChild } from '../../src/audio/process/protocol.ts';
import { type HandClock, handClock } from './hand-clock.ts';
import { spanOf } from './spans.ts';

const OUTPUT = { backEnd: 'web-audio', device: 'tape', rate: 48_000, latency: 0.03 } as const;

interface Started {
  readonly settings: DeviceSettings;
  readonly sent: ToChild[];
  readonly hear: (message: FromChild) => void;
  readonly ended: () => void;
  killed: boolean;
}

/** A sound whose processes are moved by the test. */
function openSound(options: SoundOptions = {}) {
  const clock: HandClock = handClock();
  const started: Started[] = [];
  const connect = (settings: DeviceSettings, hear: Started['hear'], ended: () => void): Link => {
    const child: Started = { settings, sent: [], hear, ended, killed: false };
    started.push(child);
    return { send: (message) => void child.sent.push(message), kill: () => (child.killed = true) };
  };
  const sound = createSound({ clock, connect, surroundings: () => 'as before', ...options });
  const reports: SoundReport[] = [];
  sound.listen((report) => reports.push(report));
  return { clock, started, sound, reports, child: (k: number) => started[k] as Started };
}

describe('the client', () => {
  it('asks for what its options say, and for the plain things where they say nothing', () => {
    const plain = { device: null, latency: 'low', backEnds: ['web-audio', 'speaker'], list: false };
    expect(openSound().child(0).settings).toEqual(plain);
    const chosen = { device: 'a', latency: 'safe', backEnds: ['speaker'], list: true } as const;
    expect(openSound(chosen).child(0).settings).toEqual(chosen);
  });

  it('hands over the score and where the ear is, then what is pending', () => {
    const { clock, sound, child } = openSound();
    sound.send({ ask: 'chime' });
    clock.advance(500);
    child(0).hear({ from: 'opened', output: OUTPUT });
    expect(child(0).sent).toMatchObject([
      { to: 'take', heard: 0.5, at: 1_000_500 },
      { to: 'do', id: 0, command: { ask: 'chime' } },
    ]);
    expect(sound.output()).toEqual(OUTPUT);
  });

  it('hands another process all that the lost one had been told', () => {
    const { clock, sound, child } = openSound();
    child(0).hear({ from: 'opened', output: OUTPUT });
    sound.send({ ask: 'play', spans: [spanOf('a', 60, null)] });
    child(0).hear({ from: 'done', id: 0, now: { heard: 0.1, earliest: { n: 1n, d: 5n } } });
    child(0).ended();
    clock.advance(1000);
    child(1).hear({ from: 'opened', output: OUTPUT });
    const [take] = child(1).sent;
    expect(take?.to === 'take' && take.score.tracks[0]?.chain[0]).toMatchObject({
      start: { n: 1n, d: 5n },
      span: { id: 'a' },
    });
  });

  it('kills a process whose device is gone, and starts another a second later', () => {
    const { clock, started, child } = openSound();
    child(0).hear({ from: 'opened', output: OUTPUT });
    child(0).hear({ from: 'lost' });
    expect(child(0).killed).toBe(true);
    clock.advance(999);
    expect(started).toHaveLength(1);
    clock.advance(1);
    expect(started).toHaveLength(2);
    child(0).hear({ from: 'opened', output: OUTPUT });
    expect(child(0).sent).toHaveLength(1);
    expect(child(1).sent).toHaveLength(0);
  });

  it('deals with what a listener asks for after what it was told of', () => {
    const { sound, child, reports } = openSound();
    sound.listen((report) => {
      if (report.tell === 'output') sound.send({ ask: 'stop' });
    });
    sound.send({ ask: 'chime' });
    child(0).hear({ from: 'opened', output: OUTPUT });
    expect(child(0).sent.map((message) => (message.to === 'do' ? message.command.ask : message.to))).toEqual([
      'take',
      'chime',
      'stop',
    ]);
    expect(reports).toHaveLength(1);
  });

  it('counts by what the process says of the ear', () => {
    const { clock, child } = openSound();
    child(0).hear({ from: 'opened', output: OUTPUT });
    child(0).hear({ from: 'position', heard: 100, at: clock.now() });
    child(0).ended();
    clock.advance(1000);
    child(1).hear({ from: 'opened', output: OUTPUT });
    expect(child(1).sent).toMatchObject([{ to: 'take', heard: 101 }]);
  });

  it('says what could not be opened, and which devices there are', () => {
    const { sound, child } = openSound();
    const attempt = { backEnd: 'speaker', reason: 'not installed' } as const;
    child(0).hear({ from: 'refused', attempt });
    child(0).hear({ from: 'devices', names: ['a', 'b'] });
    expect(sound.attempts()).toEqual([attempt]);
    expect(sound.devices()).toEqual(['a', 'b']);
  });

  it('tells no one who has turned away', () => {
    const { sound, child } = openSound();
    const told: SoundReport[] = [];
    const turnAway = sound.listen((report) => told.push(report));
    turnAway();
    child(0).hear({ from: 'opened', output: OUTPUT });
    expect(told).toEqual([]);
  });

  it('can be closed between two processes', async () => {
    const { clock, started, sound, child } = openSound();
    child(0).hear({ from: 'opened', output: OUTPUT });
    child(0).hear({ from: 'lost' });
    await sound.close();
    clock.advance(20_000);
    expect(started).toHaveLength(1);
  });

  it('goes on after a listener that failed', () => {
    const { sound, child } = openSound();
    sound.listen(() => {
      throw new Error('a listener of somebody');
    });
    expect(() => child(0).hear({ from: 'opened', output: OUTPUT })).toThrow('a listener of somebody');
    sound.send({ ask: 'chime' });
    expect(child(0).sent.map(({ to }) => to)).toEqual(['take', 'do']);
  });

  it('closed while the process starts, it kills it and never wakes again, whatever is still asked', async () => {
    const { clock, started, sound, child, reports } = openSound();
    sound.send({ ask: 'play', spans: [spanOf('a', 120, null)] });
    await sound.close();
    expect(child(0).killed).toBe(true);
    child(0).hear({ from: 'opened', output: OUTPUT });
    sound.send({ ask: 'play', spans: [spanOf('b', 120, null)] });
    clock.advance(20_000);
    expect(child(0).sent).toEqual([]);
    expect(started).toHaveLength(1);
    expect(reports).toEqual([]);
  });

  it('closed by a listener that is told of a loss, it wakes for nothing more', () => {
    const clock = handClock();
    const pending = new Set<() => void>();
    const counted: SoundClock = {
      now: clock.now,
      wake(after, call) {
        const due = (): void => void (pending.delete(due), call());
        pending.add(due);
        const cancel = clock.wake(after, due);
        return () => void (pending.delete(due), cancel());
      },
    };
    for (const lose of ['silence', 'message'] as const) {
      const { sound, child } = openSound({ clock: counted });
      sound.listen((report) => {
        if (report.tell === 'output' && report.state === 'silent') void sound.close();
      });
      child(0).hear({ from: 'opened', output: OUTPUT });
      if (lose === 'message') child(0).hear({ from: 'lost' });
      else clock.advance(1600);
      expect(child(0).killed).toBe(true);
      expect(pending.size).toBe(0);
    }
  });

  it('has a silent twin that stops counting when it is closed', async () => {
    const clock = handClock();
    const sound = createSilentSound({ clock });
    const reports: SoundReport[] = [];
    sound.listen((report) => reports.push(report));
    sound.send({ ask: 'play', spans: [spanOf('a', 120, null)] });
    clock.advance(1100);
    await sound.close();
    clock.advance(5000);
    expect(reports).toHaveLength(3);
  });

  it('closed while it counts alone, it counts no more, whatever is still asked', async () => {
    const { clock, sound, reports } = openSound();
    clock.advance(2000);
    sound.send({ ask: 'play', spans: [spanOf('a', 120, null)] });
    clock.advance(2000);
    await sound.close();
    const before = reports.length;
    expect(before).toBeGreaterThan(3);
    sound.send({ ask: 'play', spans: [spanOf('b', 120, null)] });
    clock.advance(5000);
    expect(reports).toHaveLength(before);
  });
});
