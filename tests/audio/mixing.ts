/** Scores to be mixed, and what is asked of the samples. */
import { expect } from 'vitest';
import { momentOf } from '../../src/music/time/exact-seconds.ts';
import type { Click, SoundCommand, Span } from '../../src/music/sound/sound-commands.ts';
import { EMPTY_SCORE, type Score, applyCommand } from '../../src/audio/mix/score.ts';

export const RATE = 48_000;
export const SILENT: Partial<Click> = { levels: { bar: 0, group: 0, beat: 0, subdivision: 0 } };

/** A score with each command taking effect at its frame; click and drone at half level from the start. */
export const scoreOf = (...commands: readonly (readonly [number, SoundCommand])[]): Score =>
  commands.reduce(
    (score, [frame, command]) => applyCommand(score, command, { heard: frame / RATE, earliest: momentOf(frame, RATE) }),
    { ...EMPTY_SCORE, drone: { at: -1, from: 0.5, to: 0.5 } } as Score,
  );
export const play = (...spans: readonly Span[]): SoundCommand => ({ ask: 'play', spans });
export const peak = (samples: Float32Array): number => samples.reduce((m, x) => Math.max(m, Math.abs(x)), 0);

export const near = (found: Float32Array, expected: Float32Array, within = 1e-6): void => {
  expect(found).toHaveLength(expected.length);
  expect(found.reduce((m, x, i) => Math.max(m, Math.abs(x - (expected[i] ?? 0))), 0)).toBeLessThan(within);
};
