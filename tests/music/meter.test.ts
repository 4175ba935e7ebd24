import { describe, expect, it } from 'vitest';
import { clickProblem } from '../../src/music/sound/click-strokes.ts';
import { COMMON_TIME, type Meter, parseMeter } from '../../src/music/time/meter.ts';
import { QUARTER, type Ratio, ratio } from '../../src/music/time/ratio.ts';
import { PLAIN_CLICK } from '../../src/music/sound/sound-commands.ts';

describe('reading a meter', () => {
  it('takes the ways in which musicians write it', () => {
    expect(parseMeter('4/4')).toEqual(COMMON_TIME);
    expect(parseMeter('7/8 as 2+2+3')).toEqual({ count: 7, unit: 8, groups: [2, 2, 3] });
    expect(parseMeter('3+2+2/8')).toEqual({ count: 7, unit: 8, groups: [3, 2, 2] });
  });

  it(
    'groups as usual where nothing is said: compound in threes, asymmetric with the three last (common ' +
      'practice, no source)',
    () => {
      expect(parseMeter('12/8')).toMatchObject({ groups: [3, 3, 3, 3] });
      expect(parseMeter('7/8')).toMatchObject({ groups: [2, 2, 3] });
      expect(parseMeter('5/4')).toMatchObject({ groups: [2, 3] });
      expect(parseMeter('3/8')).toMatchObject({ groups: [3] });
      expect(parseMeter('3/4')).toMatchObject({ groups: [3] });
    },
  );

  it('reads them with blanks, in brackets and as the file has them', () => {
    expect(parseMeter('  6 / 8 ')).toEqual({ count: 6, unit: 8, groups: [3, 3] });
    expect(parseMeter('7/8 (3+2+2)')).toEqual({ count: 7, unit: 8, groups: [3, 2, 2] });
    expect(parseMeter('4/4 (4)')).toEqual(COMMON_TIME);
    expect(parseMeter('6/8 as 6')).toEqual({ count: 6, unit: 8, groups: [6] });
  });

  it.each([
    ['0/4', 'an upper number from 1 to 32'],
    ['33/4', 'an upper number from 1 to 32'],
    ['99/4', 'an upper number from 1 to 32'],
    ['999999999/8', 'an upper number from 1 to 32'],
    ['4/5', 'a lower number that is one of 1, 2, 4, 8, 16, 32'],
    ['4/64', 'a lower number that is one of 1, 2, 4, 8, 16, 32'],
    ['7/8 as 2+2+2', 'groups that add up to 7, not to 6'],
    ['7/8 as 6', 'groups that add up to 7, not to 6'],
    ['4/4 as 0+4', 'groups of at least 1, like 2+2+3'],
    ['4', 'a meter like 4/4 or 7/8 (2+2+3)'],
    ['4/4 as', 'a meter like 4/4 or 7/8 (2+2+3)'],
    ['7/8 (2+2+3', 'a meter like 4/4 or 7/8 (2+2+3)'],
    ['x4/4', 'a meter like 4/4 or 7/8 (2+2+3)'],
    ['4/4x', 'a meter like 4/4 or 7/8 (2+2+3)'],
    ['-3/4', 'a meter like 4/4 or 7/8 (2+2+3)'],
  ])('says of %s what would be right', (text, right) => {
    expect(parseMeter(text)).toBe(right);
  });

  it('takes every upper number from 1 to 32 and every lower one that is a power of two up to 32', () => {
    for (const unit of [1, 2, 4, 8, 16, 32]) expect(parseMeter(`1/${unit}`)).toEqual({ count: 1, unit, groups: [1] });
    expect(parseMeter('32/32')).toMatchObject({ count: 32, groups: [32] });
  });
});

const on = (beats: readonly number[], meter: Meter, beat: Ratio) =>
  clickProblem({ ...PLAIN_CLICK, on: beats }, meter, { bpm: 60, beat });

describe('a click on chosen beats', () => {
  it('needs them in the bar, in the beats of the tempo', () => {
    expect(on([2, 4], COMMON_TIME, QUARTER)).toBeNull();
    expect(on([2, 5], COMMON_TIME, QUARTER)).toBe('Click: chosen beats must be whole numbers from 1 to 4.');
    expect(on([2], { count: 6, unit: 8, groups: [3, 3] }, ratio(3, 8))).toBeNull();
    expect(on([3], { count: 6, unit: 8, groups: [3, 3] }, ratio(3, 8))).toMatch(/from 1 to 2\.$/);
    expect(clickProblem(PLAIN_CLICK, COMMON_TIME, { bpm: 60, beat: QUARTER })).toBeNull();
  });
});
