import { describe, expect, it } from 'vitest';
import {
  type LineHistory,
  NO_MARKS,
  cleanShare,
  climbOf,
  countsOf,
  repetitions,
  summed,
  withMark,
} from '../../src/ladder/speed/line-history.ts';

const history: LineHistory = {
  line: { exercise: 'five-notes', articulation: 'single', key: 'Bb' },
  bpm: 90,
  cleanRun: 2,
  missedRun: 0,
  best: { bpm: 88, day: '2026-11-24' },
  lastDay: '2026-11-25',
  tallies: [
    { day: '2026-11-24', bpm: 88, clean: 3, tense: 1, missed: 0 },
    { day: '2026-11-25', bpm: 90, clean: 2, tense: 0, missed: 4 },
    { day: '2026-11-25', bpm: 88, clean: 1, tense: 2, missed: 1 },
  ],
};

describe('the marks of a line', () => {
  it('are counted over all its days, or over one', () => {
    expect(countsOf(history)).toEqual({ clean: 6, tense: 3, missed: 5 });
    expect(countsOf(history, '2026-11-25')).toEqual({ clean: 3, tense: 2, missed: 5 });
    expect(countsOf(history, '2026-11-26')).toEqual(NO_MARKS);
  });

  it('add up, each kind by itself', () => {
    expect(summed({ clean: 1, tense: 2, missed: 4 }, { clean: 8, tense: 16, missed: 32 })).toEqual({
      clean: 9,
      tense: 18,
      missed: 36,
    });
    expect(repetitions({ clean: 1, tense: 2, missed: 4 })).toBe(7);
    expect(withMark({ clean: 1, tense: 2, missed: 4 }, 'tense')).toEqual({ clean: 1, tense: 3, missed: 4 });
  });

  it('have a share of clean ones, but not before the first', () => {
    expect(cleanShare({ clean: 3, tense: 1, missed: 4 })).toBe(0.375);
    expect(cleanShare({ clean: 0, tense: 0, missed: 1 })).toBe(0);
    expect(cleanShare(NO_MARKS)).toBeNull();
  });

  it('leave the ladder where it stands, with the best that was held', () => {
    expect(climbOf(history)).toEqual({ bpm: 90, cleanRun: 2, missedRun: 0, best: 88 });
    expect(climbOf({ ...history, best: null, missedRun: 1, cleanRun: 0 })).toEqual({
      bpm: 90,
      cleanRun: 0,
      missedRun: 1,
      best: null,
    });
  });
});
