import { describe, expect, it } from 'vitest';
import { frameOf, EXACT_ZERO } from '../../src/music/exact.ts';
import { COMMON_TIME, quarterTempo } from '../../src/music/meter.ts';
import { PLAIN_CLICK, type Span } from '../../src/music/sound.ts';
import { onsetsBetween, place } from '../../src/music/timeline.ts';

const span = (bpm: number, bars: number | null): Span => ({
  id: `at ${bpm}`,
  role: 'free',
  tempo: quarterTempo(bpm),
  meter: COMMON_TIME,
  bars,
  click: PLAIN_CLICK,
  gain: 1,
  model: [],
});

describe('timeline', () => {
  it('puts beats on the frames of the arithmetic: 48 kHz, 120, 63 and 132 (shared/checks.md, "whole frames")', () => {
    for (const [bpm, period] of [[120, 24_000], [63, 48_000 * (60 / 63)], [132, 48_000 * (60 / 132)]] as const) {
      const frames = [...onsetsBetween(place([span(bpm, null)], EXACT_ZERO), 0, 600)].map((o) => frameOf(o.at, 48_000));
      expect(frames).toHaveLength(bpm * 10);
      for (const [k, frame] of frames.entries()) expect(Math.abs(frame - k * period)).toBeLessThanOrEqual(0.5 + 1e-6);
    }
  });
});
