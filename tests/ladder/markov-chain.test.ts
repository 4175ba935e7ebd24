import { describe, expect, it } from 'vitest';
import { chainOf, expectedStepsToLeave, longRunShares } from '../../src/ladder/settling/markov-chain.ts';

describe('a chain', () => {
  it('has the long run of a birth-and-death chain (detailed balance)', () => {
    const [up, down] = [0.3, 0.45];
    const n = 40;
    const steps = Array.from({ length: n }, (_, i): [number, number][] => [
      [Math.min(i + 1, n - 1), up],
      [Math.max(i - 1, 0), down],
      [i, 1 - up - down],
    ]);
    const visits = longRunShares(chainOf(steps));
    for (let i = 0; i + 1 < n; i += 1) expect(visits[i + 1]! / visits[i]!).toBeCloseTo(up / down, 9);
  });

  it('is left in the steps of a fair walk with a wall behind it, by the closed form', () => {
    // Feller, An Introduction to Probability Theory, vol. 1, ch. XIV (from memory): a fair walk with a
    // reflecting end at 0 needs b(b+1) - a(a+1) steps from a to b when it waits at 0 with chance 1/2.
    const b = 12;
    const steps = Array.from({ length: b }, (_, i): [number, number][] =>
      [[Math.max(i - 1, 0), 0.5] as [number, number], [i + 1, 0.5] as [number, number]].filter(([to]) => to < b),
    );
    const leave = Float64Array.from({ length: b }, (_, i) => (i === b - 1 ? 0.5 : 0));
    const expected = expectedStepsToLeave(chainOf(steps), leave);
    [0, 3, 7, 11].forEach((a) => expect(expected[a]).toBeCloseTo(b * (b + 1) - a * (a + 1), 8));
  });
});
