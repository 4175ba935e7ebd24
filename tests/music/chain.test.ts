/** A chain of spans in time: beats, onsets, the notes of the model, and the bar lines at which it may be changed. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Click, PLAIN_CLICK, type SoundedNote, type Span } from '../../src/music/sound/sound-commands.ts';
import {
  barLineFrom,
  beatsBetween,
  chainSpans,
  notesBetween,
  onsetsBetween,
  spanEnd,
} from '../../src/music/sound/timeline.ts';
import { EXACT_ZERO, exact, seconds } from '../../src/music/time/exact-seconds.ts';
import { COMMON_TIME, type Meter } from '../../src/music/time/meter.ts';
import { QUARTER, ratio } from '../../src/music/time/ratio.ts';

interface Wish extends Partial<Omit<Span, 'click' | 'tempo'>> {
  readonly bpm?: number;
  readonly click?: Partial<Click>;
}

/** At 240 a bar of four quarters lasts a second. */
const span = ({ bpm = 240, click = {}, ...rest }: Wish = {}): Span => ({
  id: 'a',
  role: 'free',
  tempo: { bpm, beat: QUARTER },
  meter: COMMON_TIME,
  bars: 2,
  gain: 1,
  model: [],
  ...rest,
  click: { ...PLAIN_CLICK, ...click },
});

const note = (at: number, length: number, midi = 60): SoundedNote => ({
  at: ratio(at, 4),
  length: ratio(length, 4),
  midi,
  gain: 0.8,
  slurred: false,
});

const chain = (...spans: readonly Span[]) => chainSpans(spans, EXACT_ZERO);
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

describe('a chain of spans', () => {
  it('has each begin where the one before ends', () => {
    const placed = chainSpans([span(), span({ bpm: 120, bars: 3 }), span({ bars: 1 })], exact(1n, 2n));
    expect(placed.map(({ start }) => seconds(start))).toEqual([0.5, 2.5, 8.5]);
    expect(placed.map((one) => spanEnd(one) && seconds(spanEnd(one)!))).toEqual([2.5, 8.5, 9.5]);
    expect(placed.map(({ bars }) => bars)).toEqual([2, 3, 1]);
  });

  it('ends with the first that has no end', () => {
    const placed = chain(span(), span({ id: 'b', bars: null }), span({ id: 'c' }));
    expect(placed.map((one) => one.span.id)).toEqual(['a', 'b']);
    expect(spanEnd(placed[1]!)).toBeNull();
    expect(chain()).toEqual([]);
  });

  it('is exact in any meter and beat', () => {
    const six: Meter = { count: 6, unit: 8, groups: [3, 3] };
    const dotted = { ...span({ meter: six, bars: 7 }), tempo: { bpm: 63, beat: ratio(3, 8) } };
    // Seven bars of two beats at 63 to the minute: 14 x 60 / 63 seconds.
    expect(spanEnd(chain(dotted)[0]!)).toEqual(exact(40n, 3n));
  });
});

const moments = (from: number, to: number) => [...beatsBetween(chain(span()), from, to)].map(({ at }) => at);

/** Moments to the millisecond, evenly over so many seconds. */
const milliseconds = (from: number, to: number) =>
  fc.integer({ min: from * 1000, max: to * 1000 }).map((value) => value / 1000);

const beatsIn = (spans: ReturnType<typeof chain>, from: number, to: number) =>
  [...beatsBetween(spans, from, to)].map(({ at }) => at);

describe('beats of a chain', () => {
  it('name their span, bar and beat, and come in order at their moments', () => {
    const found = [...beatsBetween(chain(span({ bars: 1 }), span({ id: 'b', bars: 1, bpm: 120 })), 0, 100)];
    expect(found.map(({ at, span: of, bar, beat }) => `${at} ${of.id} ${bar}.${beat}`)).toEqual([
      '0 a 0.0',
      '0.25 a 0.1',
      '0.5 a 0.2',
      '0.75 a 0.3',
      '1 b 0.0',
      '1.5 b 0.1',
      '2 b 0.2',
      '2.5 b 0.3',
    ]);
    expect(new Set(found.map((one) => one.beatsInBar))).toEqual(new Set([4]));
  });

  it('are those from a moment on, up to another and not on it', () => {
    expect(moments(0.25, 0.75)).toEqual([0.25, 0.5]);
    expect(moments(0.2501, 0.75001)).toEqual([0.5, 0.75]);
    expect(moments(1.75, 5)).toEqual([1.75]);
    expect(moments(-5, 0)).toEqual([]);
  });

  it('are found wherever one looks, in windows of any size', () => {
    const spans = chain(span({ bpm: 91, bars: 3 }), span({ bpm: 400, bars: null }));
    const all = [...beatsBetween(spans, 0, 60)].map(({ at }) => at);
    expect(all).toHaveLength(12 + Math.ceil(((60 - 720 / 91) * 400) / 60));
    fc.assert(
      fc.property(milliseconds(0, 50), milliseconds(0, 9), (from, size) => {
        expect(beatsIn(spans, from, from + size)).toEqual(all.filter((at) => at >= from && at < from + size));
      }),
    );
  });
});

const onsets = (from: number, to: number) => [...onsetsBetween(chain(span()), from, to)].map(({ at }) => seconds(at));

describe('onsets of a chain', () => {
  it("have the span's gain, the click's voice and the layer of each stroke", () => {
    const soft = span({ bars: 1, gain: 0.5, click: { voice: 'bell', on: [1, 2] } });
    const found = [...onsetsBetween(chain(soft), 0, 9)];
    expect(found.map(({ at, ...rest }) => ({ ...rest, at: seconds(at) }))).toEqual([
      { at: 0, layer: 'bar', gain: 0.5, voice: 'bell' },
      { at: 0.25, layer: 'beat', gain: 0.3, voice: 'bell' },
    ]);
  });

  it('are those from a moment on, up to another and not on it', () => {
    expect(onsets(0.25, 0.75)).toEqual([0.25, 0.5]);
    expect(onsets(1.9, 9)).toEqual([]);
    expect(onsets(0, 9)).toHaveLength(8);
  });

  it('leave a silenced beat out with its subdivisions, each time it is asked for', () => {
    const click: Partial<Click> = { subdivision: 2, silentChance: { p: 0.5, seed: 3 } };
    const of = chain(span({ bars: 50, click }));
    const beats = [...onsetsBetween(of, 0, 50)].map(({ at }) => Math.floor(seconds(at) * 4));
    for (const beat of new Set(beats)) expect(beats.filter((one) => one === beat)).toHaveLength(2);
    expect(new Set(beats).size).toBeGreaterThan(60);
    expect(new Set(beats).size).toBeLessThan(140);
    expect([...onsetsBetween(of, 0, 50)]).toEqual([...onsetsBetween(of, 0, 50)]);
  });
});

const sounding = (spans: readonly Span[], from: number, to: number) =>
  [...notesBetween(chainSpans(spans, EXACT_ZERO), from, to)].map(
    ({ at, length, note: of, gain }) => `${of.midi} ${rounded(at)}+${rounded(length)} ${rounded(gain)}`,
  );

describe('the notes of a model', () => {
  it('sound at their places, as loud as note and span together', () => {
    const model = [note(0, 1), note(1, 2, 62), note(3, 1, 64)];
    expect(sounding([span({ bars: 1, model, gain: 0.5 })], 0, 9)).toEqual([
      '60 0+0.25 0.4',
      '62 0.25+0.5 0.4',
      '64 0.75+0.25 0.4',
    ]);
    expect(sounding([span()], 0, 9)).toEqual([]);
  });

  it('begin again with every so many bars as the model fills', () => {
    expect(sounding([span({ bars: 3, model: [note(0, 4)] })], 0, 9)).toEqual([
      '60 0+1 0.8',
      '60 1+1 0.8',
      '60 2+1 0.8',
    ]);
    expect(sounding([span({ bars: 4, model: [note(0, 1), note(4, 1, 62)] })], 0, 9)).toEqual([
      '60 0+0.25 0.8',
      '62 1+0.25 0.8',
      '60 2+0.25 0.8',
      '62 3+0.25 0.8',
    ]);
    // The last note is not the one that reaches farthest.
    expect(sounding([span({ bars: 4, model: [note(0, 5), note(1, 1, 62)] })], 0, 9)).toHaveLength(4);
  });

  it('are cut where the span ends, and left out where nothing of them would sound', () => {
    expect(sounding([span({ bars: 1, model: [note(3, 3), note(4, 1, 62)] })], 0, 9)).toEqual(['60 0.75+0.25 0.8']);
    expect(sounding([span({ bars: null, model: [note(3, 3)] })], 0, 1.6)).toEqual(['60 0.75+0.75 0.8']);
  });

  it('are found while they sound, not only when they begin', () => {
    const long = [span({ bars: 8, model: [note(0, 15), note(15, 1, 62)] })];
    expect(sounding(long, 3, 3.5)).toEqual(['60 0+3.75 0.8']);
    expect(sounding(long, 3.75, 4)).toEqual(['62 3.75+0.25 0.8']);
    expect(sounding(long, 3.5, 3.75)).toEqual(['60 0+3.75 0.8']);
    expect(sounding(long, 6, 6.1)).toEqual(['60 4+3.75 0.8']);
    expect(sounding(long, 8, 9)).toEqual([]);
  });

  it('are found at any tempo, however far back they began', () => {
    const slow = [span({ bpm: 120, bars: 6, model: [note(0, 15), note(15, 1, 62)] })];
    expect(sounding(slow, 7, 7.4)).toEqual(['60 0+7.5 0.8']);
    expect(sounding(slow, 11.9, 12.5)).toEqual(['60 8+4 0.8']);
  });

  it('are the same in one window as in many', () => {
    const spans = [span({ bars: 5, model: [note(0, 3), note(5, 2, 62), note(7, 1, 64)] }), span({ bars: 2 })];
    const whole = sounding(spans, 0, 10);
    const pieces = Array.from({ length: 100 }, (_, i) => sounding(spans, i / 10, (i + 1) / 10)).flat();
    expect([...new Set(pieces)]).toEqual(whole);
  });
});

const line = (from: number, start = 0n) => {
  const { bar, at } = barLineFrom(chainSpans([span({ bars: null })], exact(start, 4n))[0]!, from);
  return [bar, seconds(at)];
};

describe('the bar line from a moment on', () => {
  it('is the next one, or the one there', () => {
    expect(line(0)).toEqual([0, 0]);
    expect(line(0.001)).toEqual([1, 1]);
    expect(line(1)).toEqual([1, 1]);
    expect(line(1.2)).toEqual([2, 2]);
    expect(line(-3)).toEqual([0, 0]);
    expect(line(7.3, 1n)).toEqual([8, 8.25]);
    expect(line(7.3, 20n)).toEqual([3, 8]);
    expect(line(0.1, 1n)).toEqual([0, 0.25]);
  });

  it('is never before the moment nor a whole bar after it', () => {
    const [odd] = chainSpans([span({ bars: null, bpm: 131.37 })], exact(1n, 3n));
    const bar = 960 / 131.37 / 4;
    fc.assert(
      fc.property(milliseconds(1, 5000), (from) => {
        const at = seconds(barLineFrom(odd!, from).at);
        expect(at).toBeGreaterThanOrEqual(from);
        expect(at).toBeLessThan(from + bar + 1e-9);
      }),
    );
  });
});
