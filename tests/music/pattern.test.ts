import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Pattern, isPattern, notesPerBeatOf, readPattern } from '../../src/music/pattern/pattern.ts';
import { type Ratio, QUARTER, add, format, multiply, ratio } from '../../src/music/time/ratio.ts';
import { type Meter, COMMON_TIME, barLength } from '../../src/music/time/meter.ts';

const frame = { meter: COMMON_TIME, unit: ratio(1, 8), degrees: 7 };
const read = (text: string, meter: Meter = COMMON_TIME, unit: Ratio = frame.unit) =>
  readPattern(text, { ...frame, meter, unit });
const pattern = (text: string, meter?: Meter): Pattern => {
  const found = read(text, meter);
  if (!isPattern(found)) throw new Error(found.map((one) => one.sentence).join(' '));
  return found;
};
const troubles = (text: string, meter?: Meter) => {
  const found = read(text, meter);
  return isPattern(found) ? [] : found.map(({ at, sentence }) => `${at}: ${sentence}`);
};
/** Degree (0 is the tonic), length and tie of each note. */
const said = (text: string, meter?: Meter) =>
  pattern(text, meter)
    .notes.map(
      (n) => `${n.step ?? 'r'}${n.alter > 0 ? '#' : n.alter < 0 ? 'b' : ''}:${format(n.length)}${n.tied ? '~' : ''}`,
    )
    .join(' ');

const per = (text: string, meter = COMMON_TIME, beat = QUARTER) => notesPerBeatOf(text, meter, beat);

describe('a pattern', () => {
  it('is degrees of the unit, and a note alone in its bar lasts the bar', () => {
    expect(said('1 2 3 4 5 4 3 2 | 1')).toBe('0:1/8 1:1/8 2:1/8 3:1/8 4:1/8 3:1/8 2:1/8 1:1/8 0:1');
  });

  it.each([
    ["1' 7, #4 b7 8 r r 1", '7:1/8 -1:1/8 3#:1/8 6b:1/8 7:1/8 r:1/8 r:1/8 0:1/8'],
    ['1:1/4 2:1/8. 3:1/16 4:1/8t 5:1/8t 6:1/8t r:1/4', '0:1/4 1:3/16 2:1/16 3:1/12 4:1/12 5:1/12 r:1/4'],
    [':1/16t5 1..5 : 1 1 r:1/2', '0:1/20 1:1/20 2:1/20 3:1/20 4:1/20 0:1/8 0:1/8 r:1/2'],
    ['1:1/2~ 1:1/8 2 3 4 | 5', '0:1/2~ 0:1/8 1:1/8 2:1/8 3:1/8 4:1'],
    ['1..8', '0:1/8 1:1/8 2:1/8 3:1/8 4:1/8 5:1/8 6:1/8 7:1/8'],
    ['(1 2)x4', '0:1/8 1:1/8 0:1/8 1:1/8 0:1/8 1:1/8 0:1/8 1:1/8'],
    ['(1 3)x4+1', '0:1/8 2:1/8 1:1/8 3:1/8 2:1/8 4:1/8 3:1/8 5:1/8'],
    ['(8 6)x4-1', '7:1/8 5:1/8 6:1/8 4:1/8 5:1/8 3:1/8 4:1/8 2:1/8'],
    ['|: 1 :|x3 2', '0:1 0:1 0:1 1:1'],
    ['|: 1..8 :| 1', `${'0:1/8 1:1/8 2:1/8 3:1/8 4:1/8 5:1/8 6:1/8 7:1/8 '.repeat(2)}0:1`],
  ])('%s', (text, notes) => {
    expect(said(text)).toBe(notes);
  });

  it('without a bar line is divided by the meter, a cut note being tied', () => {
    expect(said(':1/4 1 2 3 4:1/2 5 6 1')).toBe('0:1/4 1:1/4 2:1/4 3:1/4~ 3:1/4 4:1/4 5:1/4 0:1/4');
  });

  it('counts the degrees of its own scale', () => {
    const chromatic = readPattern('1 13 12, r r r r r', { ...frame, degrees: 12 });
    expect(isPattern(chromatic) && chromatic.notes.slice(0, 3).map((n) => n.step)).toEqual([0, 12, -1]);
  });

  it('fills asymmetric and compound bars', () => {
    expect(pattern('1 3 5 3 1 3 5', { count: 7, unit: 8, groups: [2, 2, 3] }).bars).toBe(1);
    expect(pattern('(1 2 3)x4', { count: 6, unit: 8, groups: [3, 3] }).bars).toBe(2);
  });

  it('gives the notes per beat where nobody did', () => {
    expect(per('1 2 3 4 5 4 3 2 1 2 3 4 5 4 3 2 | 1')).toBe(4);
    expect(per('1 1 1 2 2 2 3 3 3 4 4 4 | 1')).toBe(3);
    expect(per('1 1 1 1 1 1 1 1 1 1 1 1 1:1/4 | 1:1')).toBe(4);
    expect(per('1:1 | 2:1')).toBe(0.25);
    expect(per('1 2 3 4 5 6', { count: 6, unit: 8, groups: [3, 3] }, ratio(3, 8))).toBe(3);
    expect(per('1 oops')).toBe(1);
  });
});

describe('what is wrong with a pattern', () => {
  it.each([
    [
      '1 0 1',
      "3: There is no degree 0: degrees count from 1, and the one below 1 is the scale's last with a comma, like 7,",
    ],
    ['1 2 | 1', '1: Bar 1 is too short by 3/4 (a dotted half): it holds 1/4, and the meter is 4/4.'],
    ['1 | 1..9', '5: Bar 2 is too long by 1/8 (an eighth): it holds 9/8, and the meter is 4/4.'],
    ['1 fish', "3: 'fish' is neither a note nor a rest: write a degree like 5, #4, 1' or 2:1/8, or z for a rest."],
    ['(1 2', '1: This ( is never closed: a ) is missing.'],
    ['1 :| 2', '3: This :| closes nothing: a |: is missing before it.'],
    ['', '1: The pattern holds no note: write degrees like 1 2 3 4 5.'],
    ['r r', '1: The pattern holds no note: write degrees like 1 2 3 4 5.'],
    ['1~ | 2', '1: A tie (-) holds a note into the next, which must be the same degree, like 1- 1.'],
    ['1~', '1: A tie (-) holds a note into the next, which must be the same degree, like 1- 1.'],
    ['(1)x0', '4: x0 leaves nothing to play: repeat at least once.'],
    ['1:1/8t4', '1: t4 is no tuplet: write t for a triplet, or t5, t6, t7 up to t13.'],
    ['1:0', '1: A note lasts longer than nothing: write a note value like :1/4 or :1/8.'],
    ['99', "1: Degree 99 is too high: 50 is the limit; write octaves with ' like 1'"],
    ['(1 |)x999', '1: The pattern comes to more than 200 bars, which is the limit for one repetition.'],
    ['((((1 |)x99)x99)x99)x99', '3: The pattern comes to more than 4000 notes and bar lines, which is the limit.'],
  ])('%s', (text, sentence) => {
    expect(troubles(text)).toEqual([sentence]);
  });

  it('names every bar that does not fill the meter', () => {
    expect(troubles('1 2 | 1 | 3 4')).toHaveLength(2);
    expect(
      troubles('1 3 5 3 1 3', { count: 7, unit: 8, groups: [2, 2, 3] }).concat(
        troubles('1 2 3 4 5 | 1', { count: 7, unit: 8, groups: [2, 2, 3] }),
      )[1],
    ).toMatch(/too short by 1\/4 \(a quarter\): it holds 5\/8/);
  });

  it('is said of anything that can be typed, and never thrown', () => {
    const anything = fc.oneof(
      fc.string({ maxLength: 60 }),
      fc
        .array(fc.constantFrom('1', '5', "8'", '(', ')', 'x3', '|:', ':|', '|', ':1/8', '~', 'r', '#', '1..8', '0'), {
          maxLength: 30,
        })
        .map((words) => words.join(' ')),
    );
    fc.assert(
      fc.property(anything, (text) => {
        const found = read(text);
        if (!isPattern(found)) for (const one of found) expect(one.at).toBeLessThanOrEqual(text.length + 1);
      }),
    );
    expect(troubles('1 '.repeat(5000))[0]).toMatch(/8000 is the limit/);
    expect(troubles('('.repeat(7000))[0]).toMatch(/at most 8 deep/);
  });
});

describe('onsets', () => {
  const meters: readonly Meter[] = [
    COMMON_TIME,
    { count: 3, unit: 4, groups: [3] },
    { count: 7, unit: 8, groups: [2, 2, 3] },
    { count: 6, unit: 8, groups: [3, 3] },
  ];
  // Figures that fill a whole number of sixteenths, so that rests can fill the last bar up.
  const figures: readonly (readonly [string, number])[] = [
    ['1:1/4', 4],
    ['r:1/8', 2],
    ['3:1/16', 1],
    ['2:1/8. 3:1/16', 4],
    ['1:1/8t 2:1/8t 3:1/8t', 4],
    ['5:1/16t5 4:1/16t5 3:1/16t5 2:1/16t5 1:1/16t5', 4],
    ['6:1/2', 8],
    ['7', 2],
  ];

  it('tile each bar exactly, bar lines or not', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...meters),
        fc.array(fc.constantFrom(...figures), { minLength: 2, maxLength: 40 }),
        (meter, chosen) => {
          const inBar = (16 * meter.count) / meter.unit;
          const used = chosen.reduce((sum, [, sixteenths]) => sum + sixteenths, 4);
          const rests = 'r:1/16 '.repeat((inBar - (used % inBar)) % inBar);
          const { notes, bars } = pattern(`1:1/4 ${chosen.map(([text]) => text).join(' ')} ${rests}`, meter);
          let at = ratio(0);
          for (const note of notes) {
            expect(format(note.at)).toBe(format(at));
            expect(Math.floor((note.at.n * meter.unit) / (note.at.d * meter.count))).toBe(note.bar);
            at = add(at, note.length);
          }
          expect(format(at)).toBe(format(multiply(barLength(meter), ratio(bars))));
          expect(bars).toBe(Math.ceil(used / inBar));
        },
      ),
    );
  });
});
