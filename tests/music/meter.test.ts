import * as fc from 'fast-check';
import { TimeSignature } from 'tonal';
import { describe, expect, it } from 'vitest';
import { clickProblem } from '../../src/music/sound/click-strokes.ts';
import {
  COMMON_TIME,
  type Meter,
  barLength,
  beatsOfBar,
  notesPerSecond,
  parseMeter,
  quarterTempo,
  secondsOf,
} from '../../src/music/time/meter.ts';
import { QUARTER, type Ratio, ZERO, add, format, ratio } from '../../src/music/time/ratio.ts';
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
      expect(parseMeter('6/4')).toMatchObject({ groups: [3, 3] });
      expect(parseMeter('9/4')).toMatchObject({ groups: [3, 3, 3] });
      expect(parseMeter('8/8')).toMatchObject({ groups: [8] });
      expect(parseMeter('1/4')).toMatchObject({ groups: [1] });
      expect(parseMeter('3/4')).toMatchObject({ groups: [3] });
    },
  );

  it('reads them with blanks, in brackets and as the file has them', () => {
    expect(parseMeter('  6 / 8 ')).toEqual({ count: 6, unit: 8, groups: [3, 3] });
    expect(parseMeter('7/8 (3+2+2)')).toEqual({ count: 7, unit: 8, groups: [3, 2, 2] });
    expect(parseMeter('4/4 (4)')).toEqual(COMMON_TIME);
    expect(parseMeter('6/8 as 6')).toEqual({ count: 6, unit: 8, groups: [6] });
    expect(parseMeter('6/8 (6)')).toEqual({ count: 6, unit: 8, groups: [6] });
    expect(parseMeter('7/8   as  2+2+3')).toMatchObject({ groups: [2, 2, 3] });
    expect(parseMeter('10+11/8')).toMatchObject({ count: 21, groups: [10, 11] });
    expect(parseMeter('12/8 as 12')).toMatchObject({ groups: [12] });
    expect(parseMeter('21/8 as 11+10')).toMatchObject({ groups: [11, 10] });
    expect(parseMeter('12/8 (12)')).toMatchObject({ groups: [12] });
    expect(parseMeter('21/8 (11+10)')).toMatchObject({ groups: [11, 10] });
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

describe('tonal, which knows nothing of us,', () => {
  it.each(['4/4', '3/4', '6/8', '9/8', '12/8', '7/8', '5/4', '2+2+3/8', '3+2/8', '2+3+2/16'])(
    'agrees on %s',
    (text) => {
      const theirs = TimeSignature.get(text);
      const ours = parseMeter(text);
      expect(ours).toMatchObject({ count: theirs.upper, unit: theirs.lower });
      if (theirs.additive.length > 0) expect(ours).toMatchObject({ groups: theirs.additive });
      if (theirs.type === 'compound')
        expect(ours).toMatchObject({ groups: Array.from({ length: Number(theirs.upper) / 3 }, () => 3) });
    },
  );
});

/** Beats of a bar as 'at+length', those that begin a group with a star. */
const beats = (meter: Meter, beat: Ratio): string =>
  beatsOfBar(meter, beat)
    .map(({ at, length, startsGroup }) => `${format(at)}+${format(length)}${startsGroup ? '*' : ''}`)
    .join(' ');

describe('the beats of a bar', () => {
  const SEVEN: Meter = { count: 7, unit: 8, groups: [2, 2, 3] };
  const SIX: Meter = { count: 6, unit: 8, groups: [3, 3] };

  // How bars are counted and conducted: common practice, no source.
  it.each([
    ['four quarters', COMMON_TIME, QUARTER, '0+1/4* 1/4+1/4 1/2+1/4 3/4+1/4'],
    ['four quarters in halves', COMMON_TIME, ratio(1, 2), '0+1/2* 1/2+1/2'],
    ['seven eighths', SEVEN, ratio(1, 8), '0+1/8* 1/8+1/8 1/4+1/8* 3/8+1/8 1/2+1/8* 5/8+1/8 3/4+1/8'],
    ['short, short, long where quarters do not fill the groups', SEVEN, QUARTER, '0+1/4* 1/4+1/4* 1/2+3/8*'],
    ['two dotted quarters', SIX, ratio(3, 8), '0+3/8* 3/8+3/8*'],
    ['two dotted quarters in one group', { count: 6, unit: 8, groups: [6] }, ratio(3, 8), '0+3/8* 3/8+3/8'],
    ['six eighths', SIX, ratio(1, 8), '0+1/8* 1/8+1/8 1/4+1/8 3/8+1/8* 1/2+1/8 5/8+1/8'],
    [
      "the meter's own unit where one group is not filled",
      { count: 3, unit: 4, groups: [3] },
      ratio(1, 2),
      '0+1/4* 1/4+1/4 1/2+1/4',
    ],
    ['one in a bar', { count: 3, unit: 8, groups: [3] }, ratio(3, 8), '0+3/8*'],
  ] as const)('are %s', (_, meter, beat, expected) => {
    expect(beats(meter, beat)).toBe(expected);
  });

  it('fill the bar, whatever the meter and the beat', () => {
    const meters = fc
      .array(fc.integer({ min: 1, max: 5 }), { minLength: 1, maxLength: 6 })
      .chain((groups) => fc.constantFrom(2, 4, 8, 16).map((unit) => parseMeter(`${groups.join('+')}/${unit}`)));
    fc.assert(
      fc.property(meters, fc.constantFrom(QUARTER, ratio(1, 8), ratio(3, 8), ratio(1, 2)), (meter, beat) => {
        if (typeof meter === 'string') throw new Error(meter);
        let at = ZERO;
        for (const one of beatsOfBar(meter, beat)) {
          expect(one.at).toEqual(at);
          at = add(at, one.length);
        }
        expect(at).toEqual(barLength(meter));
        expect(beatsOfBar(meter, beat).filter((one) => one.startsGroup)).toHaveLength(meter.groups.length);
      }),
    );
  });
});

describe('how long it lasts', () => {
  it('a quarter at 120 half a second, a bar of 6/8 at dotted quarter = 60 two seconds', () => {
    expect(secondsOf(QUARTER, quarterTempo(120))).toBe(0.5);
    expect(secondsOf(barLength({ count: 6, unit: 8, groups: [3, 3] }), { bpm: 60, beat: ratio(3, 8) })).toBe(2);
    // music21's documented examples: dotted quarter 60 = quarter 90 = half 45.
    const minute = [{ bpm: 60, beat: ratio(3, 8) }, quarterTempo(90), { bpm: 45, beat: ratio(1, 2) }];
    expect(minute.map((tempo) => secondsOf(ratio(45, 2), tempo))).toEqual([60, 60, 60]);
  });

  it('sixteenths at 120 are 8.0 notes a second, triplets 6.0, sixteenths at 144 9.6; arithmetic', () => {
    expect([notesPerSecond(120, 4), notesPerSecond(120, 3), notesPerSecond(144, 4)]).toEqual([8, 6, 9.6]);
  });
});

describe('a click on chosen beats', () => {
  it('needs them in the bar, in the beats of the tempo', () => {
    expect(on([2, 4], COMMON_TIME, QUARTER)).toBeNull();
    expect(on([2, 5], COMMON_TIME, QUARTER)).toBe('Click: chosen beats must be whole numbers from 1 to 4.');
    expect(on([2], { count: 6, unit: 8, groups: [3, 3] }, ratio(3, 8))).toBeNull();
    expect(on([3], { count: 6, unit: 8, groups: [3, 3] }, ratio(3, 8))).toMatch(/from 1 to 2\.$/);
    expect(clickProblem(PLAIN_CLICK, COMMON_TIME, { bpm: 60, beat: QUARTER })).toBeNull();
  });
});
