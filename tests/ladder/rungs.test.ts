import { describe, expect, it } from 'vitest';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';
import { nearestRung, rungFrom, rungsOf } from '../../src/ladder/rule/rungs.ts';

/** Tens from 40 to 80, starting and ending there. */
const TENS: LadderRule = { ...DEFAULT_RULE, step: { by: 'beats', bpm: 10 }, floor: 40, top: 80, start: 40, target: 80 };

describe('rungs', () => {
  it('are the traditional metronome marks when asked (handbook table)', () => {
    // The table was read in two public places; 39 marks.
    const table =
      '40 42 44 46 48 50 52 54 56 58 60 63 66 69 72 76 80 84 88 92 96 100 104 108 112 116 120 126 132 138 144 ' +
      '152 160 168 176 184 192 200 208';
    const rungs = rungsOf({ ...DEFAULT_RULE, step: { by: 'marks' }, floor: 40, top: 208 });
    expect(rungs).toEqual(table.split(' ').map(Number));
    expect(rungs).toHaveLength(39);
  });

  // The table's own widest step is 63 from 60 and 126 from 120: 5 %; 5.6 % from 72 to 76 (handbook table).
  it.each([
    [40, 140, 60, 140],
    [40, 240, 60, 140],
    [40, 240, 61, 239],
    [40, 400, 60, 300],
    [50, 231, 55, 181],
  ])('are marks with target and top and no leap: %d to %d, from %d to %d', (floor, top, start, target) => {
    const rungs = rungsOf({ ...DEFAULT_RULE, step: { by: 'marks' }, floor, top, start, target });
    expect(rungs).toEqual(expect.arrayContaining([floor, start, target, top]));
    rungs.slice(1).forEach((rung, i) => expect(rung / rungs[i]!).toBeLessThanOrEqual(76 / 72 + 0.003));
  });

  it('are twice the marks beyond 208, and half of them below 40', () => {
    const rungs = rungsOf({ ...DEFAULT_RULE, step: { by: 'marks' }, floor: 20, top: 240, start: 60, target: 120 });
    expect(rungs.slice(-5)).toEqual([208, 216, 224, 232, 240]);
    expect(rungs.slice(0, 4)).toEqual([20, 21, 22, 23]);
  });

  it('are of those marks only what lies on the ladder, with its own ends', () => {
    expect(rungsOf({ ...TENS, step: { by: 'marks' }, floor: 61, top: 74, start: 61, target: 74 })).toEqual([
      61, 63, 66, 69, 72, 74,
    ]);
  });

  it('are whole numbers and never repeat, even where three per cent is less than one', () => {
    const rungs = rungsOf({ ...DEFAULT_RULE, floor: 10, top: 400 });
    expect(rungs.every(Number.isInteger)).toBe(true);
    expect(new Set(rungs).size).toBe(rungs.length);
    expect(rungs[0]).toBe(10);
  });

  it('rise by equal ratios, each worked out from the floor and rounded by itself', () => {
    const rule = { ...TENS, step: { by: 'ratio', percent: 5 } as const, floor: 100, top: 130, start: 100, target: 100 };
    // 100 x 1.05^k: 105, 110.25, 115.7625, 121.550625, 127.62815625 (arithmetic).
    expect(rungsOf(rule)).toEqual([100, 105, 110, 116, 122, 128]);
    expect(rungsOf({ ...rule, fractions: true })).toEqual([100, 105, 110.25, 115.76, 121.55, 127.63]);
  });

  it('rise by equal steps up to the top, whatever the last place of the sum says', () => {
    expect(rungsOf(TENS)).toEqual([40, 50, 60, 70, 80]);
    // 10 + 0.1 x 239 is 33.900000000000006 in binary numbers.
    const fine = { ...TENS, step: { by: 'beats', bpm: 0.1 } as const, fractions: true, floor: 10, top: 33.9 };
    expect(10 + 0.1 * 239).toBeGreaterThan(33.9);
    expect(rungsOf({ ...fine, start: 10, target: 10 }).at(-1)).toBe(33.9);
  });

  it.each([
    ['takes the place of one nearer than half a step', 63, [40, 50, 63, 70, 80]],
    ['takes the place of one nearer than half a step above', 68, [40, 50, 60, 68, 80]],
    ['stands between two that are as far', 65, [40, 50, 60, 65, 70, 80]],
    ['is one already', 70, [40, 50, 60, 70, 80]],
    ['may lie below the floor', 35, [35, 40, 50, 60, 70, 80]],
    ['may lie above the top', 84, [40, 50, 60, 70, 80, 84]],
  ])('a tempo that must be one %s: %s', (_, bpm, rungs) => {
    expect(rungsOf(TENS, [bpm])).toEqual(rungs);
  });

  it('hold the start and the target too', () => {
    expect(rungsOf({ ...TENS, start: 55, target: 77 })).toEqual([40, 50, 55, 60, 70, 77]);
  });
});

describe('the nearest rung', () => {
  const rungs = [60, 62, 64];

  it.each([
    [10, 0],
    [60.9, 0],
    [61, 0],
    [61.1, 1],
    [63, 1],
    [63.1, 2],
    [500, 2],
  ])('to %d is number %d: of two as near the lower', (bpm, index) => {
    expect(nearestRung(rungs, bpm)).toBe(index);
  });

  it.each([
    [62, 1, 64],
    [62, -1, 60],
    [62, 5, 64],
    [62, -5, 60],
    [61, 1, 62],
  ])('is where steps are counted from: %d and %d is %d', (bpm, by, to) => {
    expect(rungFrom(rungs, bpm, by)).toBe(to);
  });
});
