/** A smaller sample of what `npm run compare:estimate` tries; the whole table stands in DEVELOPERS.md. */
import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/common/chance.ts';
import { KINDS, type Kind } from './estimate-players.ts';
import { type Summary, summaries } from './estimate-trial.ts';

/** Other players than in the table. */
const sampled = (kind: Kind, players: number, ...checkpoints: readonly number[]): readonly Summary[] =>
  summaries(players, KINDS[kind], (i) => seeded(50_000 + i), checkpoints);

/** One standard error of a share of so many players is at most this. */
const luck = (players: number, share: number): number => Math.sqrt((share * (1 - share)) / players);

describe('the 80 % interval', () => {
  const PLAYERS = 80;
  const ordinary = sampled('ordinary', PLAYERS, 10, 30, 60, 200);

  it.each([0, 1, 2, 3])('holds the truth for 75 to 88 %% of ordinary players, but for luck: checkpoint %d', (k) => {
    const { coverage } = ordinary[k]!;
    expect(coverage).toBeGreaterThan(0.75 - 2 * luck(PLAYERS, 0.75));
    expect(coverage).toBeLessThan(0.88 + 2 * luck(PLAYERS, 0.88));
  });

  // 5 % after 60 marks and 2.5 % after 200 were asked for. Who is told the curve misses that too (DEVELOPERS.md).
  it.each([2, 3])('is off by little more than who is told the curve, in the median: checkpoint %d', (k) => {
    expect(ordinary[k]!.medianError).toBeLessThan(1.5 * ordinary[k]!.medianErrorIfTold + 0.01);
    expect(ordinary[k]!.medianErrorIfTold).toBeGreaterThan(0);
  });

  it('narrows with marks', () => {
    const widths = ordinary.map(({ medianWidth }) => medianWidth);
    expect(widths).toEqual(widths.toSorted((a, b) => b - a));
  });

  it.each<[Kind, number]>([
    ['day form 4 %', 0.72],
    ['drift 3 % a day', 0.72],
    ['slope 6 to 9', 0.72],
    ['learning 2 % a day', 0.7],
  ])('is not too sure of players odd in one thing after 200 marks, but for luck: %s', (kind, least) => {
    const [{ coverage }] = sampled(kind, 40, 200) as [Summary];
    expect(coverage).toBeGreaterThan(least - 2 * luck(40, least));
  });
});
