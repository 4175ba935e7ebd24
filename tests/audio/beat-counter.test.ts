import { describe, expect, it } from 'vitest';
import { seconds } from '../../src/music/time/exact-seconds.ts';
import type { SoundReport } from '../../src/music/sound/sound-commands.ts';
import {
  type BeatCount,
  beatCountFrom,
  createBeatCounter,
  dueBeats,
  heardAt,
  soonAfter,
  untilNextBeat,
} from '../../src/audio/process/beat-counter.ts';
import type { SoundClock } from '../../src/audio/process/sound-clock.ts';
import { applyCommand } from '../../src/audio/mix/score.ts';
import { handClock } from './hand-clock.ts';
import { spanOf } from './spans.ts';

/** A count that begins when the clock reads 5000, with a chain that begins 20 ms later. */
const counting = (bpm: number, bars: number | null, offset = 0): BeatCount => {
  const count = beatCountFrom(5000, offset);
  const command = { ask: 'play', spans: [spanOf('a', bpm, bars)] } as const;
  return { ...count, score: applyCommand(count.score, command, soonAfter(heardAt(count, 5000))) };
};
const names = (due: ReturnType<typeof dueBeats>): readonly string[] =>
  due.due.map((event) => (event.tell === 'end' ? `end ${event.span}` : `${event.span} ${event.bar}.${event.beat}`));

describe('the count of beats', () => {
  it('begins where the ear is, and goes with the clock', () => {
    expect(heardAt(beatCountFrom(5000, 0), 5000)).toBe(0);
    expect(heardAt(beatCountFrom(5000, 0), 6250)).toBe(1.25);
    expect(seconds(soonAfter(7.5).earliest)).toBeCloseTo(7.52, 12);
  });

  it('tells each beat once, from half a millisecond before its moment', () => {
    const count = counting(60, 1);
    expect(names(dueBeats(count, 5019))).toEqual([]);
    const first = dueBeats(count, 5019.6);
    expect(names(first)).toEqual(['a 0.0']);
    expect(names(dueBeats(first.count, 5020))).toEqual([]);
    expect(names(dueBeats(first.count, 9021))).toEqual(['a 0.1', 'a 0.2', 'a 0.3', 'end a']);
  });

  it('tells nothing twice when the device says that the ear is further back, and nothing is left out', () => {
    const at = dueBeats(counting(60, 1), 6100).count;
    const back = { ...at, ear: { heard: 0.5, at: 6100 } };
    expect(names(dueBeats(back, 6700))).toEqual([]);
    expect(names(dueBeats(back, 7700))).toEqual(['a 0.2']);
    const on = { ...at, ear: { heard: 3.5, at: 6100 } };
    expect(names(dueBeats(on, 6100))).toEqual(['a 0.2', 'a 0.3']);
  });

  it('shows a beat later to a player who hears later', () => {
    expect(names(dueBeats(counting(60, 1, 80), 5090))).toEqual([]);
    expect(names(dueBeats(counting(60, 1, 80), 5100))).toEqual(['a 0.0']);
    expect(untilNextBeat(counting(60, 1, 80), 5050)).toBeCloseTo(50, 9);
  });

  it('sleeps until the next beat, but never longer than a quarter of a second, nor less than no time', () => {
    const count = dueBeats(counting(60, 1), 5020).count;
    expect(untilNextBeat(count, 5920)).toBeCloseTo(100, 9);
    expect(untilNextBeat(count, 5100)).toBe(250);
    expect(untilNextBeat(count, 6400)).toBe(0);
  });

  it('sleeps on when nothing is left to tell', () => {
    expect(untilNextBeat(beatCountFrom(5000, 0), 5000)).toBeNull();
    const ended = dueBeats(counting(60, 1), 9100).count;
    expect(untilNextBeat(ended, 9100)).toBeNull();
    expect(untilNextBeat(dueBeats(counting(60, 1), 8500).count, 8500)).toBe(250);
  });
});

const listen = () => {
  const clock = handClock();
  const heard: (SoundReport & { readonly at: number })[] = [];
  const counter = createBeatCounter(clock, 0, (report) => {
    heard.push({ ...report, at: clock.now() - 1_000_000 });
  });
  return { clock, counter, heard };
};

describe('the beat counter', () => {
  it('tells how late a report goes out, never less than nothing', () => {
    const { clock, counter, heard } = listen();
    counter.apply({ ask: 'play', spans: [spanOf('a', 120, null)] });
    clock.advance(2000);
    expect(heard.map((report) => (report.tell === 'beat' ? report.lateBy : NaN))).toEqual([0, 0, 0, 0]);
    counter.anchor(counter.heard() + 0.7, clock.now());
    clock.advance(250);
    const late = heard.slice(4).map((report) => (report.tell === 'beat' ? Math.round(report.lateBy) : NaN));
    expect(late[0]).toBeGreaterThan(600);
    expect(late[1]).toBeCloseTo((late[0] ?? 0) - 500, -1);
    expect(Math.min(...late)).toBeGreaterThanOrEqual(0);
  });

  it('counts what its listeners cost: what is told after a slow one is later', () => {
    let now = 0;
    let look: (() => void) | null = null;
    const wake = (_after: number, call: () => void): (() => void) => {
      look = call;
      return () => {};
    };
    const late: number[] = [];
    const counter = createBeatCounter({ now: () => now, wake }, 0, (report) => {
      if (report.tell === 'beat') late.push(report.lateBy);
      now += 100;
    });
    counter.apply({ ask: 'play', spans: [spanOf('a', 120, 4)] });
    now = 1120;
    (look as (() => void) | null)?.();
    // Due at 0.02, 0.52 and 1.02 s, looked for at 1.12 s, each listener taking a tenth.
    expect(late.map(Math.round)).toEqual([1100, 700, 300]);
  });

  it('takes a command that took effect when the device says', () => {
    const { clock, counter, heard } = listen();
    counter.apply({ ask: 'play', spans: [spanOf('a', 120, 1)] }, { heard: 0, earliest: { n: 3n, d: 2n } });
    clock.advance(1499);
    expect(heard).toEqual([]);
    clock.advance(2);
    expect(heard[0]).toMatchObject({ tell: 'beat', span: 'a', bar: 0, beat: 0, beatsInBar: 4 });
    expect(Math.abs((heard[0]?.at ?? 0) - 1500)).toBeLessThan(0.6);
  });

  it('tells the end, and sleeps for good after it', () => {
    const clock = handClock();
    let woken = 0;
    const watched: SoundClock = {
      now: clock.now,
      wake: (after, call) => clock.wake(after, () => void (woken++, call())),
    };
    const heard: SoundReport[] = [];
    const counter = createBeatCounter(watched, 0, (report) => heard.push(report));
    expect(() => counter.close()).not.toThrow();
    counter.apply({ ask: 'play', spans: [spanOf('a', 240, 1)] });
    expect(counter.score().tracks).toHaveLength(1);
    clock.advance(1500);
    expect(heard.at(-1)).toEqual({ tell: 'end', span: 'a' });
    const before = woken;
    clock.advance(5000);
    expect(woken).toBe(before);
  });

  it('wakes for one thing at a time, and for nothing after its close', () => {
    const { clock, counter, heard } = listen();
    for (const bpm of [60, 120]) counter.apply({ ask: 'play', spans: [spanOf(`at ${bpm}`, bpm, null)] });
    clock.advance(1100);
    const before = heard.length;
    expect(before).toBe(3);
    counter.close();
    clock.advance(5000);
    expect(heard).toHaveLength(before);
  });
});
