import { describe, expect, it } from 'vitest';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';

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

  it('are whole numbers and never repeat, even where three per cent is less than one', () => {
    const rungs = rungsOf({ ...DEFAULT_RULE, floor: 10, top: 400 });
    expect(rungs.every(Number.isInteger)).toBe(true);
    expect(new Set(rungs).size).toBe(rungs.length);
    expect(rungs[0]).toBe(10);
  });
});
