/** Blocks in turns, and the limits that every order keeps. */
import { describe, expect, it } from 'vitest';
import { interleaved, keepsLimits } from '../../src/plan/today/blocks-in-turns.ts';
import type { PlanItem } from '../../src/plan/today/plan-items.ts';
import { planItem as item } from './hand-made-items.ts';

const LIMITS = { sameKind: 9, highLoad: 99 };
const inTurns = (items: readonly PlanItem[], limits = LIMITS): readonly string[] =>
  interleaved(items, limits).map(
    ({ block, minutes, turn }) => `${block} ${minutes}${turn === null ? '' : ` ${turn.n}/${turn.of}`}`,
  );

describe('neighbours in turns', () => {
  // Turns of three minutes, as in the study of C. Carter and J. Grahn, Frontiers in Psychology 7:1251 (2016).
  it('alternate by three minutes; what is left over lengthens the last', () => {
    expect(inTurns([item('a', 6), item('b', 8)])).toEqual(['a 3 1/2', 'b 3 1/2', 'a 3 2/2', 'b 5 2/2']);
    expect(inTurns([item('a', 10), item('b', 6)])).toEqual(['a 3 1/3', 'b 3 1/2', 'a 3 2/3', 'b 3 2/2', 'a 4 3/3']);
  });

  it('are two by two', () => {
    expect(inTurns([item('a', 6), item('b', 6), item('c', 6)])).toEqual([
      'a 3 1/2',
      'b 3 1/2',
      'a 3 2/2',
      'b 3 2/2',
      'c 6',
    ]);
    expect(inTurns([item('x', 5), item('a', 6), item('b', 6)]).slice(0, 2)).toEqual(['x 5', 'a 3 1/2']);
  });

  it.each<readonly [string, PlanItem]>([
    ['too short', item('b', 5.5)],
    ['a warm-up', item('b', 6, { warmUp: true })],
    ['without an exercise', item('b', 6, { exercise: null })],
    ['of breaths', item('b', 6, { breaths: 12 })],
    ['a rest', item('b', 6, { kind: 'rest' })],
  ])('are played in one go where one is %s', (_, other) => {
    expect(inTurns([item('a', 6), other])).toEqual(['a 6', `b ${other.minutes}`]);
    expect(inTurns([other, item('a', 6)])).toEqual([`b ${other.minutes}`, 'a 6']);
  });

  it('are played in one go where turns would break a limit, also with what follows', () => {
    const hard = { highLoad: true };
    const limits = { sameKind: 9, highLoad: 8 };
    expect(inTurns([item('a', 6), item('b', 8, hard)], limits)).toHaveLength(4);
    expect(inTurns([item('a', 6), item('b', 8, hard), item('c', 4, hard)], limits)).toEqual(['a 6', 'b 8', 'c 4']);
  });
});

describe('a limit', () => {
  const keeps = (items: readonly PlanItem[], sameKind: number, highLoad: number): boolean =>
    keepsLimits(items, { sameKind, highLoad });

  it('for a kind counts blocks in a row, a block in turns once and a rest not at all', () => {
    const [a, b, other] = [item('a', 3), item('b', 3), item('c', 3, { kind: 'sound' })];
    expect([keeps([a, b], 1, 99), keeps([a, b], 2, 99), keeps([a, other, b], 1, 99)]).toEqual([false, true, true]);
    expect(keeps([a, b, a, b], 2, 99)).toBe(true);
    expect(keeps([a, item('break', 5, { kind: 'rest' }), b], 1, 99)).toBe(false);
  });

  it('for high load counts minutes until other work or a rest comes between', () => {
    const hard = (minutes: number) => item('h', minutes, { highLoad: true });
    expect([keeps([hard(4), hard(4)], 9, 8), keeps([hard(4), hard(4.5)], 9, 8)]).toEqual([true, false]);
    expect(keeps([hard(8), item('a', 1), hard(8)], 9, 8)).toBe(true);
    expect(keeps([hard(8), item('break', 1, { kind: 'rest' }), hard(8)], 9, 8)).toBe(true);
    // Thirds of minutes do not add up exactly.
    expect(keeps([hard(0.1), hard(0.2)], 9, 0.3)).toBe(true);
  });
});
