import { beforeEach, describe, expect, it } from 'vitest';
import type { SoundReport } from '../../src/music/sound/sound-commands.ts';
import { type Sound, type SoundOptions, createSound } from '../../src/audio/process/client.ts';
import { SENTENCES } from '../../src/audio/process/sound-sentences.ts';
import { createSilentSound } from '../../src/audio/process/silent-sound.ts';
import { loadKit } from '../../src/audio/mix/click-voices.ts';
import { type FakeChildren, fakeChildren } from './fake-device.ts';
import { type HandClock, handClock } from './hand-clock.ts';
import { spanOf } from './spans.ts';

const kit = loadKit(48_000);
let clock: HandClock;
let children: FakeChildren;
let reports: { readonly at: number; readonly report: SoundReport }[];

const listenTo = (sound: Pick<Sound, 'listen'>): void =>
  void sound.listen((report) => reports.push({ at: clock.now(), report }));

function open(options: SoundOptions = {}): Sound {
  const sound = createSound({ clock, connect: children.connect, surroundings: () => null, ...options });
  listenTo(sound);
  return sound;
}

const beats = (): readonly { readonly at: number; readonly name: string }[] =>
  reports.flatMap(({ at, report }) =>
    report.tell === 'beat' ? [{ at: at - report.lateBy, name: `${report.span} ${report.bar}.${report.beat}` }] : [],
  );
const sentences = (): readonly string[] =>
  reports.flatMap(({ report }) => (report.tell === 'output' ? [report.sentence] : []));

/** Frames at which strokes begin on the tape. */
function strokes(tape: Float32Array): readonly number[] {
  const found: number[] = [];
  let quiet = Infinity;
  tape.forEach((x, i) => {
    if (Math.abs(x) > 0.01 && quiet > 4000) found.push(i);
    quiet = Math.abs(x) > 0.01 ? 0 : quiet + 1;
  });
  return found;
}

beforeEach(() => {
  clock = handClock();
  children = fakeChildren(clock, kit);
  reports = [];
});

const firstOfSecondBar = (offset: number): number => {
  clock = handClock();
  children = fakeChildren(clock, kit);
  reports = [];
  const sound = open({ offset });
  sound.send({ ask: 'play', spans: [spanOf('a', 60, 2)] });
  clock.advance(9000);
  return (beats()[4]?.at ?? NaN) - 1_000_000;
};

const lose = (how: (c: FakeChildren) => void): Sound => {
  const sound = open();
  sound.send({ ask: 'play', spans: [spanOf('a', 100, null)] });
  clock.advance(4000);
  children.available = false;
  how(children);
  clock.advance(6000);
  return sound;
};

describe('with a device', () => {
  it('waits for it, then sounds every beat and reports it when it is heard', () => {
    const sound = open();
    sound.send({ ask: 'play', spans: [spanOf('a', 137, 8)] });
    clock.advance(15_000);
    expect(sentences()).toEqual([SENTENCES.sounding]);
    const heard = strokes(children.device()?.tape() ?? new Float32Array());
    expect(heard).toHaveLength(32);
    expect(beats()).toHaveLength(32);
    const period = 60 / 137;
    heard.forEach((frame, k) => expect(Math.abs(frame - (heard[0] ?? 0) - k * period * 48_000)).toBeLessThanOrEqual(1));
    beats().forEach(({ at }, k) => expect(Math.abs(at - (beats()[0]?.at ?? 0) - k * period * 1000)).toBeLessThan(25));
    expect(reports.at(-1)?.report).toEqual({ tell: 'end', span: 'a' });
  });

  it('shows a beat later by the offset of the player', () => {
    expect(firstOfSecondBar(80) - firstOfSecondBar(0)).toBeCloseTo(80, 0);
  });

  it('falls silent within 150 ms of being told to', () => {
    const sound = open();
    sound.send({ ask: 'play', spans: [spanOf('a', 400, null, { subdivision: 8 })] });
    clock.advance(5000);
    sound.send({ ask: 'stop' });
    const asked = children.device()?.position() ?? 0;
    clock.advance(1000);
    const tape = children.device()?.tape() ?? new Float32Array();
    expect(tape.subarray(asked - 4800, asked).some((x) => x !== 0)).toBe(true);
    expect(tape.subarray(asked + 0.15 * 48_000).every((x) => x === 0)).toBe(true);
  });

  it('changes the tempo at a bar line, also when that was mixed long ago', () => {
    const sound = open();
    sound.send({ ask: 'play', spans: [spanOf('a', 120, 4), spanOf('b', 60, null)] });
    clock.advance(7600);
    sound.send({ ask: 'then', spans: [spanOf('c', 240, 2)], cut: false });
    clock.advance(4000);
    expect(
      beats()
        .map(({ name }) => name)
        .slice(15, 18),
    ).toEqual(['a 3.3', 'c 0.0', 'c 0.1']);
    const heard = strokes(children.device()?.tape() ?? new Float32Array());
    expect((heard[17] ?? 0) - (heard[16] ?? 0)).toBe(12_000);
    expect((heard[16] ?? 0) - (heard[15] ?? 0)).toBe(24_000);
  });
});

describe('without a device', () => {
  it('says so once, and the beat goes on in time', () => {
    children.available = false;
    const sound = open();
    sound.send({ ask: 'play', spans: [spanOf('a', 120, null)] });
    clock.advance(10_000);
    expect(sentences()).toEqual([SENTENCES.none]);
    const at = beats().map((b) => b.at);
    expect(at.length).toBeGreaterThanOrEqual(19);
    at.forEach((t, k) => expect(t - (at[0] ?? 0)).toBeCloseTo(k * 500, 6));
  });

  it('takes the device within five seconds of its coming, and enters at a bar line', () => {
    children.available = false;
    const sound = open();
    sound.send({ ask: 'play', spans: [spanOf('a', 120, null)] });
    clock.advance(60_000);
    children.available = true;
    clock.advance(5000);
    expect(sentences()).toEqual([SENTENCES.none, SENTENCES.sounding]);
    clock.advance(4000);
    const bar = strokes(children.device()?.tape() ?? new Float32Array());
    expect((bar[1] ?? 0) - (bar[0] ?? 0)).toBeGreaterThan(20_000);
    const gaps = beats()
      .slice(1)
      .map((b, i) => b.at - (beats()[i]?.at ?? 0));
    expect(Math.max(...gaps)).toBeLessThan(550);
    expect(Math.min(...gaps)).toBeGreaterThan(450);
  });

  it('tries less often where nothing around has changed, and at once where something has', () => {
    children.available = false;
    let around = 'no server';
    open({ surroundings: () => around });
    clock.advance(60_000);
    expect(children.started).toBeLessThan(20);
    const before = children.started;
    around = 'a server';
    clock.advance(1100);
    expect(children.started).toBe(before + 1);
  });
});

describe('a device that is lost', () => {
  it.each([
    ['crash', (c: FakeChildren) => c.crash()],
    ['hang', (c: FakeChildren) => c.hang()],
  ] as const)('by a %s never stops the beat, and not one bar line is missed', (_name, how) => {
    const sound = lose(how);
    sound.send({ ask: 'then', spans: [spanOf('b', 150, null)], cut: true });
    clock.advance(4000);
    expect(sentences()).toEqual([SENTENCES.sounding, SENTENCES.lost]);
    const names = beats().map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    const first = names.findIndex((name) => name.startsWith('b'));
    expect(names.slice(0, first)).toEqual(Array.from({ length: first }, (_, k) => `a ${Math.floor(k / 4)}.${k % 4}`));
    expect(first % 4).toBe(0);
    expect(names.slice(first, first + 5)).toEqual(['b 0.0', 'b 0.1', 'b 0.2', 'b 0.3', 'b 1.0']);
    children.available = true;
    clock.advance(5000);
    expect(sentences().at(-1)).toBe(SENTENCES.back);
    expect(sound.output()?.device).toBe('tape');
  });

  it('loses no command that was on its way', () => {
    const sound = open();
    sound.send({ ask: 'play', spans: [spanOf('a', 120, null)] });
    clock.advance(3000);
    children.hang();
    sound.send({ ask: 'then', spans: [spanOf('b', 120, null)], cut: true });
    clock.advance(4000);
    expect(beats().at(-1)?.name.startsWith('b')).toBe(true);
  });
});

it('closes quickly and says nothing afterwards', async () => {
  const sound = open();
  sound.send({ ask: 'play', spans: [spanOf('a', 120, null)] });
  clock.advance(3000);
  await sound.close();
  const before = reports.length;
  clock.advance(5000);
  expect(reports).toHaveLength(before);
});

describe('the silent twin', () => {
  it('reports the same beats', () => {
    const sound = createSilentSound({ clock });
    listenTo(sound);
    clock.advance(600_000);
    sound.send({ ask: 'play', spans: [spanOf('a', 90, 2), spanOf('b', 180, 1)] });
    clock.advance(8000);
    expect(beats()).toHaveLength(12);
    expect(beats()[4]).toMatchObject({ name: 'a 1.0' });
    expect((beats()[8]?.at ?? 0) - (beats()[0]?.at ?? 0)).toBeCloseTo(8 * (60_000 / 90), 6);
    expect(reports.at(-1)?.report).toEqual({ tell: 'end', span: 'b' });
  });
});
