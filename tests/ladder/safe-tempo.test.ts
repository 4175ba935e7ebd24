import { describe, expect, it } from 'vitest';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { safeTempo, safeTempoText } from '../../src/ladder/speed/safe-tempo.ts';
import { type LineEstimate, estimateOf, learnAllLines } from '../../src/ladder/speed/speed-knowledge.ts';
import { historyOf } from './histories.ts';
import { LAST, LINE, at } from './wall-days.ts';

const estimate = (low: number, bpm: number, high: number, from = 80, to = 100, marks = 40): LineEstimate => ({
  bpm,
  low,
  high,
  marks,
  siblings: false,
  played: { low: from, high: to },
});

const said = (...of: Parameters<typeof estimate>): string => safeTempoText(estimate(...of), (bpm) => `${bpm}`);

describe('what is said of a safe tempo', () => {
  it('is nothing until the interval is narrower than a third of its middle', () => {
    expect(said(80, 90, 110, 80, 100, 7)).toBe('still finding out (7 marks)');
    expect(said(80, 90, 110, 80, 100, 1)).toBe('still finding out (1 mark)');
    expect(said(80, 90, 109)).toContain('Safe at 90');
    expect(safeTempo({ ...estimate(80, 90, 95), played: null })).toEqual({ known: 'too little' });
  });

  it('is the tempo with its interval where it was played', () => {
    expect(said(85, 90, 95)).toBe('Safe at 90 (between 85 and 95)');
  });

  it('is no number far outside the tempos played', () => {
    expect(said(95, 107, 115)).toBe('Safe tempo above 100');
    expect(said(95, 106, 115)).toBe('Safe at 106 (95 or more)');
    expect(said(70, 75, 85)).toBe('Safe tempo below 80');
    expect(said(70, 76, 85)).toBe('Safe at 76 (85 or less)');
    expect(said(84, 90, 107, 85, 91)).toBe('Safe at 90 (84 or more)');
    expect(said(84, 90, 107, 90, 90)).toBe('Safe at 90');
  });

  it('may be sure of a side long before a number is: all above, or all below', () => {
    expect(said(101, 180, 320)).toBe('Safe tempo above 100');
    expect(said(20, 40, 79)).toBe('Safe tempo below 80');
    // Though not from a few marks, where other lines say it.
    expect(said(101, 180, 320, 80, 100, 9)).toBe('still finding out (9 marks)');
    expect(said(20, 40, 79, 80, 100, 9)).toBe('still finding out (9 marks)');
    expect(said(101, 180, 320, 80, 100, 10)).toBe('Safe tempo above 100');
  });

  it.each([
    ['above 100', [...at(96, 'ccccccccc'), ...at(100, 'ccccccccccccccccccccc')]],
    ['below 80', [...at(100, 'mmmmmmmmm'), ...at(80, 'mmmmmmmmmmmmm')]],
  ])('says %s from marks', (words, marks) => {
    const asked = { line: LINE, notesPerBeat: 4, rule: { ...DEFAULT_RULE, start: 90 }, day: LAST };
    const known = estimateOf(learnAllLines([historyOf(LINE, [marks], LAST)]), asked);
    expect(safeTempoText(known, String)).toBe(`Safe tempo ${words}`);
  });
});
