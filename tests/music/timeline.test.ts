import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EXACT_ZERO, frameOf, momentOf, seconds } from '../../src/music/time/exact-seconds.ts';
import { COMMON_TIME, type Meter, quarterTempo } from '../../src/music/time/meter.ts';
import { type Ratio, ratio } from '../../src/music/time/ratio.ts';
import { type Click, PLAIN_CLICK, type Span } from '../../src/music/sound/sound-commands.ts';
import { beatsBetween, spanEnd, onsetsBetween, chainSpans } from '../../src/music/sound/timeline.ts';

const RATE = 48_000;
const HOURS = 3600;

interface Wish {
  readonly bpm?: number;
  readonly beat?: Ratio;
  readonly bars?: number | null;
  readonly meter?: Meter;
  readonly click?: Partial<Click>;
}

const span = ({ bpm = 120, beat = ratio(1, 4), bars = null, meter = COMMON_TIME, click = {} }: Wish): Span => ({
  id: `at ${bpm}`,
  role: 'free',
  tempo: { bpm, beat },
  meter,
  bars,
  click: { ...PLAIN_CLICK, ...click },
  gain: 1,
  model: [],
});

/** Onsets of one bar, in beats of a quarter at 60: one second each. */
const oneBar = (wish: Wish): readonly [number, string][] => {
  const chain = chainSpans([span({ bpm: 60, ...wish, bars: 1 })], EXACT_ZERO);
  return [...onsetsBetween(chain, 0, 100)].map((o) => [Number(seconds(o.at).toFixed(4)), o.layer]);
};

const parts = (feel: Click['feel'], subdivision: number): readonly number[] =>
  oneBar({ click: { feel, subdivision } })
    .map(([at]) => at)
    .filter((at) => at < 1);

const heard = (seed: number): readonly number[] => {
  const chain = chainSpans([span({ bpm: 240, click: { silentChance: { p: 0.3, seed } } })], EXACT_ZERO);
  return [...onsetsBetween(chain, 0, 1000)].map((o) => seconds(o.at));
};

describe('onsets', () => {
  it('lie on the frames of the arithmetic at 48 kHz: 120, 63 and 132', () => {
    for (const [bpm, period] of [
      [120, 24_000],
      [63, 45_714.2857],
      [132, 21_818.1818],
    ] as const) {
      const frames = [...onsetsBetween(chainSpans([span({ bpm })], EXACT_ZERO), 0, 60)].map((o) => frameOf(o.at, RATE));
      expect(frames).toHaveLength(bpm);
      for (const [k, frame] of frames.entries()) expect(Math.abs(frame - k * period)).toBeLessThan(0.51);
    }
  });

  it(
    'are half a frame off at most after ten hours, at any tempo and rate (formula: frame = k x 60 x rate / ' + 'bpm)',
    () => {
      const cents = fc.integer({ min: 1000, max: 40_000 });
      fc.assert(
        fc.property(cents, fc.constantFrom(44_100, 48_000, 96_000), (hundredths, rate) => {
          const from = 10 * HOURS;
          const chain = chainSpans([span({ bpm: hundredths / 100 })], EXACT_ZERO);
          for (const onset of onsetsBetween(chain, from, from + 12)) {
            const beat = Math.round((seconds(onset.at) * hundredths) / 6000);
            // Twice the error times the tempo, in whole numbers: |frame x bpm x 100 - k x 6000 x rate| <= bpm x 100 /
            // 2.
            const error = BigInt(frameOf(onset.at, rate)) * BigInt(hundredths) - BigInt(beat) * 6000n * BigInt(rate);
            expect(2n * (error < 0n ? -error : error) <= BigInt(hundredths)).toBe(true);
          }
        }),
        { numRuns: 60 },
      );
    },
  );

  it('of a chain begin exactly where the last span ended, after a thousand tempo changes', () => {
    const tempos = Array.from({ length: 1000 }, (_, i) => 40 + ((i * 37) % 169));
    const chain = chainSpans(
      tempos.map((bpm) => span({ bpm, bars: 3 })),
      EXACT_ZERO,
    );
    // The same sum over a common denominator: every tempo divides the product of the primes' powers up to 208.
    const ideal = tempos.reduce((sum, bpm) => sum + 720 / bpm, 0);
    const last = chain.at(-1);
    const end = last ? spanEnd(last) : null;
    expect(end && seconds(end)).toBeCloseTo(ideal, 6);
    const beats = [...beatsBetween(chain, 0, ideal + 1)];
    expect(beats).toHaveLength(12_000);
    for (let i = 1; i < chain.length; i++) {
      const before = chain[i - 1];
      const next = chain[i];
      expect(before && next && spanEnd(before)).toEqual(next?.start);
    }
  });

  it('do not depend on how the time is cut into windows', () => {
    const chain = chainSpans(
      [span({ bpm: 137, bars: 2 }), span({ bpm: 91.5, click: { subdivision: 5 } })],
      momentOf(12_345, RATE),
    );
    const whole = [...onsetsBetween(chain, 0, 20)].map((o) => frameOf(o.at, RATE));
    const pieces = Array.from({ length: 200 }, (_, i) => [...onsetsBetween(chain, i / 10, (i + 1) / 10)]).flat();
    expect(pieces.map((o) => frameOf(o.at, RATE))).toEqual(whole);
  });
});

describe('meter and click', () => {
  it('groups 7/8 as 2+2+3 and as 3+2+2, in eighths and in groups', () => {
    const eighths = { beat: ratio(1, 8) };
    const meter = { count: 7, unit: 8, groups: [2, 2, 3] };
    expect(oneBar({ meter, ...eighths }).map(([at, layer]) => `${at} ${layer}`)).toEqual([
      '0 bar',
      '1 beat',
      '2 group',
      '3 beat',
      '4 group',
      '5 beat',
      '6 beat',
    ]);
    const other = { count: 7, unit: 8, groups: [3, 2, 2] };
    expect(
      oneBar({ meter: other, ...eighths })
        .filter(([, layer]) => layer === 'group')
        .map(([at]) => at),
    ).toEqual([3, 5]);
    // Quarters do not fill a group of three eighths: the groups themselves are the beats, 1 + 1 + 1.5 quarters.
    expect(oneBar({ meter })).toEqual([
      [0, 'bar'],
      [1, 'group'],
      [2, 'group'],
    ]);
  });

  it('counts compound meters in dotted beats: 6/8 has two (common practice, no source)', () => {
    const meter = { count: 6, unit: 8, groups: [3, 3] };
    expect(oneBar({ meter, beat: ratio(3, 8) })).toEqual([
      [0, 'bar'],
      [1, 'group'],
    ]);
    expect(oneBar({ meter, beat: ratio(3, 8), click: { subdivision: 3 } }).map(([at]) => at)).toEqual([
      0, 0.3333, 0.6667, 1, 1.3333, 1.6667,
    ]);
  });

  it('counts alla breve in halves', () => {
    expect(oneBar({ meter: { count: 2, unit: 2, groups: [2] }, beat: ratio(1, 2) })).toHaveLength(2);
    expect(oneBar({ meter: COMMON_TIME, beat: ratio(1, 2) })).toHaveLength(2);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])('divides a beat into %i equal parts', (n) => {
    const at = oneBar({ click: { subdivision: n } }).map(([t]) => t);
    expect(at).toHaveLength(4 * n);
    at.forEach((t, i) => expect(t).toBeCloseTo(i / n, 3));
  });

  it('swings pairs two to one and dots them three to one (common practice, no source)', () => {
    expect(parts('swung', 2)).toEqual([0, 0.6667]);
    expect(parts('dotted', 2)).toEqual([0, 0.75]);
    expect(parts('dotted', 4)).toEqual([0, 0.375, 0.5, 0.875]);
    expect(parts('swung', 3)).toEqual([0, 0.3333, 0.6667]);
  });

  it('strikes off-beats, first beats or chosen beats only', () => {
    expect(oneBar({ click: { on: 'off-beats' } }).map(([at]) => at)).toEqual([0.5, 1.5, 2.5, 3.5]);
    expect(oneBar({ click: { on: 'first' } }).map(([at]) => at)).toEqual([0]);
    expect(oneBar({ click: { on: [2, 4] } }).map(([at]) => at)).toEqual([1, 3]);
    const dotted = { meter: { count: 6, unit: 8, groups: [3, 3] }, beat: ratio(3, 8) };
    expect(oneBar({ ...dotted, click: { on: 'off-beats' } }).map(([at]) => at)).toEqual([0.6667, 1.6667]);
  });

  it('plays so many bars, then is silent for so many, while the beats go on', () => {
    const chain = chainSpans([span({ bpm: 240, click: { silentBars: { play: 3, silent: 1 } } })], EXACT_ZERO);
    const bars = [...onsetsBetween(chain, 0, 16)].map((o) => Math.floor(seconds(o.at)));
    expect([...new Set(bars)]).toEqual([0, 1, 2, 4, 5, 6, 8, 9, 10, 12, 13, 14]);
    expect([...beatsBetween(chain, 0, 16)]).toHaveLength(64);
  });

  it('silences beats by chance, the same ones for the same seed, about as many as asked', () => {
    expect(heard(7)).toEqual(heard(7));
    expect(heard(7)).not.toEqual(heard(8));
    // 4000 beats: 0.7 with a standard error of 0.0072; four of them.
    for (const seed of [1, 2, 3]) expect(Math.abs(heard(seed).length / 4000 - 0.7)).toBeLessThan(0.029);
  });

  it('leaves out a layer whose level is 0', () => {
    const levels = { ...PLAIN_CLICK.levels, subdivision: 0 };
    expect(oneBar({ click: { subdivision: 4, levels } })).toHaveLength(4);
  });

  it('takes fractions of a beat per minute as they are written', () => {
    const chain = chainSpans([span({ bpm: 72.35, bars: 7235 })], EXACT_ZERO);
    const end = chain[0] && spanEnd(chain[0]);
    expect(end && frameOf(end, RATE)).toBe(4 * 100 * 60 * RATE);
    expect(quarterTempo(72.35).bpm).toBe(72.35);
  });
});
