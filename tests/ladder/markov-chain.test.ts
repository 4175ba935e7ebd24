import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Transition,
  chainOf,
  expectedStepsToLeave,
  longRunShares,
} from '../../src/ladder/settling/markov-chain.ts';
import { solved } from './linear-equations.ts';

type Rows = readonly (readonly Transition[])[];

/** Any chain in which every state leads to its neighbours, and some further; with a chance to leave from each. */
const anyChain: fc.Arbitrary<{ readonly rows: Rows; readonly leave: readonly number[] }> = fc
  .record({ size: fc.integer({ min: 2, max: 12 }), reach: fc.integer({ min: 1, max: 4 }) })
  .chain(({ size, reach }) =>
    fc
      .array(fc.array(fc.nat(5), { minLength: 2 * reach + 2, maxLength: 2 * reach + 2 }), {
        minLength: size,
        maxLength: size,
      })
      .map((weights) => {
        const drawn = weights.map(([leave = 0, ...row], from) => ({
          leave,
          row: row
            .map((weight, i) => [from + i - reach, weight + (Math.abs(i - reach) === 1 ? 1 : 0)] as const)
            .filter(([to]) => to >= 0 && to < size),
        }));
        const sums = drawn.map(({ row }) => row.reduce((sum, [, weight]) => sum + weight, 0));
        return {
          rows: drawn.map(({ row }, from) => row.map(([to, weight]): Transition => [to, weight / sums[from]!])),
          leave: drawn.map(({ leave }) => leave),
        };
      }),
  );

const dense = (rows: Rows): number[][] =>
  rows.map((row) => {
    const cells = rows.map(() => 0);
    for (const [to, chance] of row) cells[to]! += chance;
    return cells;
  });

const closeTo = (found: ArrayLike<number>, wanted: readonly number[]): void =>
  wanted.forEach((value, i) => expect(found[i]! / value).toBeCloseTo(1, 6));

const roundedShares = (rows: Rows): readonly number[] =>
  [...longRunShares(chainOf(rows))].map((share) => Number(share.toFixed(12)));

describe('the long run of a chain', () => {
  it('is the solution of its balance equations', () => {
    fc.assert(
      fc.property(anyChain, ({ rows }) => {
        const matrix = dense(rows);
        // All flows in equal all flows out; the last equation says that the shares add up to 1.
        const equations = matrix.map((_, to) =>
          matrix.map((row, from) => (to === matrix.length - 1 ? 1 : row[to]! - (from === to ? 1 : 0))),
        );
        const shares = solved(
          equations,
          matrix.map((_, to) => (to === matrix.length - 1 ? 1 : 0)),
        );
        closeTo(longRunShares(chainOf(rows)), shares);
      }),
    );
  });

  it('is that of a birth-and-death chain by detailed balance', () => {
    const [up, down] = [0.3, 0.45];
    const n = 40;
    const rows = Array.from({ length: n }, (_, i): Transition[] => [
      [Math.min(i + 1, n - 1), up],
      [Math.max(i - 1, 0), down],
      [i, 1 - up - down],
    ]);
    const visits = longRunShares(chainOf(rows));
    for (let i = 0; i + 1 < n; i += 1) expect(visits[i + 1]! / visits[i]!).toBeCloseTo(up / down, 9);
  });

  it('is right where the first states are visited once in 10^500 steps', () => {
    const n = 400;
    const rows = Array.from({ length: n }, (_, i): Transition[] => [
      [Math.min(i + 1, n - 1), 0.9],
      [Math.max(i - 1, 0), 0.05],
      [i, 0.05],
    ]);
    const visits = longRunShares(chainOf(rows));
    expect(visits[n - 1]).toBeCloseTo(1 - 1 / 18, 9);
    expect(visits[n - 2]! / visits[n - 1]!).toBeCloseTo(1 / 18, 9);
    expect(visits[0]).toBe(0);
  });

  it('is right where each step up is 10^200 times as likely as one down', () => {
    const n = 6;
    const rows = Array.from({ length: n }, (_, i): Transition[] => [
      [Math.min(i + 1, n - 1), 1],
      [Math.max(i - 1, 0), 1e-200],
    ]);
    expect([...longRunShares(chainOf(rows))]).toEqual([0, 0, 0, 0, 1e-200, 1]);
  });

  it('leaves out the states that are not come back to', () => {
    const [rest, away] = [0.25, 0.75];
    const [three, four] = [3, 4].map((n) => Number((n / 7).toFixed(12)));
    expect(
      roundedShares([
        [[1, 1]],
        [[2, 1]],
        [
          [2, rest],
          [3, away],
        ],
        [[2, 1]],
      ]),
    ).toEqual([0, 0, four, three]);
    expect(
      roundedShares([
        [[1, 1]],
        [
          [0, away],
          [1, rest],
        ],
        [[1, 1]],
        [[2, 1]],
      ]),
    ).toEqual([three, four, 0, 0]);
  });

  it('adds up several steps to one state, and knows a chain that never moves', () => {
    const rows: Rows = [
      [
        [0, 0.25],
        [1, 0.25],
        [1, 0.5],
      ],
      [[0, 1]],
    ];
    closeTo(longRunShares(chainOf(rows)), [4 / 7, 3 / 7]);
    expect([...longRunShares(chainOf([[[0, 1]]]))]).toEqual([1]);
  });

  it('does not change the chain', () => {
    const chain = chainOf([
      [
        [0, 0.5],
        [1, 0.5],
      ],
      [[0, 1]],
    ]);
    const before = structuredClone(chain);
    longRunShares(chain);
    const leave = Float64Array.of(0.1, 0);
    expectedStepsToLeave(chain, leave);
    expect(chain).toEqual(before);
    expect([...leave]).toEqual([0.1, 0]);
  });
});

describe('the expected steps until a chain is left', () => {
  it('solve their equations: one step, and those of wherever it leads', () => {
    fc.assert(
      fc.property(anyChain, ({ rows, leave }) => {
        fc.pre(leave.some((weight) => weight > 0));
        // A state is left with chance weight / (weight + 4); what remains goes as before.
        const chances = leave.map((weight) => weight / (weight + 4));
        const inside = rows.map((row, from) =>
          row.map(([to, chance]): Transition => [to, chance * (1 - chances[from]!)]),
        );
        const equations = dense(inside).map((row, from) => row.map((chance, to) => (from === to ? 1 : 0) - chance));
        const steps = solved(
          equations,
          rows.map(() => 1),
        );
        closeTo(expectedStepsToLeave(chainOf(inside), Float64Array.from(chances)), steps);
      }),
    );
  });

  it('are those of a fair walk with a wall behind it, by the closed form', () => {
    // Feller, An Introduction to Probability Theory, vol. 1, ch. XIV (from memory): a fair walk with a
    // reflecting end at 0 needs b(b+1) - a(a+1) steps from a to b when it waits at 0 with chance 1/2.
    const b = 12;
    const steps = Array.from({ length: b }, (_, i): Transition[] =>
      [[Math.max(i - 1, 0), 0.5] as const, [i + 1, 0.5] as const].filter(([to]) => to < b),
    );
    const leave = Float64Array.from({ length: b }, (_, i) => (i === b - 1 ? 0.5 : 0));
    const expected = expectedStepsToLeave(chainOf(steps), leave);
    [0, 3, 7, 11].forEach((a) => expect(expected[a]).toBeCloseTo(b * (b + 1) - a * (a + 1), 8));
  });

  it('are without end where it can be caught', () => {
    const rows: Rows = [
      [[0, 1]],
      [
        [0, 0.5],
        [2, 0.5],
      ],
      [[2, 0.5]],
    ];
    expect([...expectedStepsToLeave(chainOf(rows), Float64Array.of(0, 0, 0.5))]).toEqual([Infinity, Infinity, 2]);
  });
});
