/** The pattern language word by word, as `pattern.ts` and the README have it. */
import { describe, expect, it } from 'vitest';
import { isPattern, notesPerBeatOf, readPattern } from '../../src/music/pattern/pattern.ts';
import { COMMON_TIME, type Meter } from '../../src/music/time/meter.ts';
import { QUARTER, format, ratio } from '../../src/music/time/ratio.ts';

const THREE_FOUR: Meter = { count: 3, unit: 4, groups: [3] };
const SIX_EIGHT: Meter = { count: 6, unit: 8, groups: [3, 3] };

const read = (text: string, meter = COMMON_TIME, degrees = 7) =>
  readPattern(text, { meter, unit: ratio(1, 8), degrees });

/** Steps above the tonic with their accidentals, r for rests; what is missing of the last bar is filled with rests. */
function steps(text: string, degrees = 7): string {
  for (let rests = 0; rests < 8; rests += 1) {
    const found = read(`${text}${' r'.repeat(rests)}`, COMMON_TIME, degrees);
    if (!isPattern(found)) continue;
    const notes = found.notes.slice(0, found.notes.length - rests);
    return notes.map(({ step, alter }) => `${step ?? 'r'}${alter === 0 ? '' : `(${alter})`}`).join(' ');
  }
  return trouble(text).join(' ');
}

function lengths(text: string, meter = COMMON_TIME): string {
  const found = read(text, meter);
  if (!isPattern(found)) return found.map(({ sentence }) => sentence).join(' ');
  return found.notes.map(({ length, bar, tied }) => `${bar}:${format(length)}${tied ? '~' : ''}`).join(' ');
}

const trouble = (text: string, meter = COMMON_TIME): readonly string[] => {
  const found = read(text, meter);
  return isPattern(found) ? [] : found.map(({ at, sentence }) => `${at}: ${sentence}`);
};

const neither = (at: number, word: string): string =>
  `${at}: '${word}' is neither a note nor a rest: write a degree like 5, #4, 1' or 2:1/8, or z for a rest.`;

describe('a degree', () => {
  it.each([
    ["1 1' 1'' 1, 1,, 1',", '0 7 14 -7 -14 0'],
    ['#1 ##1 b1 bb1 ♯4 ♭7 ♯♯1 ♭♭3', '0(1) 0(2) 0(-1) 0(-2) 3(1) 6(-1) 0(2) 2(-2)'],
    ['8 9 15 50', '7 8 14 49'],
    ['1..3 3..1 5,..7, 1..1', '0 1 2 2 1 0 -3 -2 -1 0'],
    ["7..8' 6..5'", '6 7 8 9 10 11 12 13 14 5 6 7 8 9 10 11'],
  ])('%s is %s', (text, expected) => {
    expect(steps(text)).toBe(expected);
  });

  it('counts octaves in degrees of its scale', () => {
    expect(steps("1' 1, 2,, r r r r r", 3)).toBe('3 -3 -5 r r r r r');
    expect(steps("1' 1, 2,, r r r r r", 12)).toBe('12 -12 -23 r r r r r');
  });

  it.each([
    ['51', "1: Degree 51 is too high: 50 is the limit; write octaves with ' like 1'"],
    [
      "1 0'",
      "3: There is no degree 0: degrees count from 1, and the one below 1 is the scale's last with a comma, like 7,",
    ],
    [
      '1..0',
      "1: There is no degree 0: degrees count from 1, and the one below 1 is the scale's last with a comma, like 7,",
    ],
    ['###1', neither(1, '###1')],
    ['#b1', neither(1, '#b1')],
    ["1''''',", neither(1, "1''''',")],
    ['x1', neither(1, 'x1')],
    ['1x', neither(1, '1x')],
    ['1234', neither(1, '1234')],
    ['1..3..5', neither(1, '1..3..5')],
    ['#1..3', neither(1, '#1..3')],
    ['rr', neither(1, 'rr')],
    ['r~', neither(1, 'r~')],
    ['abcdefghijklmnopqrst', neither(1, 'abcdefghijklmnopqrst')],
    ['abcdefghijklmnopqrstu', neither(1, 'abcdefghijklmnopqrst…')],
  ])('%s is none', (text, expected) => {
    expect(trouble(text)).toEqual([expected]);
  });
});

describe('a value', () => {
  it.each([
    ['1:1/2 1:1/4 1:1/8 1:1/16 1:1/16', '0:1/2 0:1/4 0:1/8 0:1/16 0:1/16'],
    ['1:1/4. 1:1/8. 1:1/16 1:1/4. | 1:1/4.. 1:9/16', '0:3/8 0:3/16 0:1/16 0:3/8 1:7/16 1:9/16'],
    ['1:7/8 1:1/8', '0:7/8 0:1/8'],
    ['1:3/4 r:1/4', '0:3/4 0:1/4'],
    ['1:1', '0:1'],
    ['1:2/2', '0:1'],
    ['1:1/4t 2:1/4t 3:1/4t r:1/2', '0:1/6 0:1/6 0:1/6 0:1/2'],
    [
      '(1:1/16t5)x5 (1:1/16t6)x6 (1:1/16t7)x7 r:1/4',
      `${'0:1/20 '.repeat(5)}${'0:1/24 '.repeat(6)}${'0:1/28 '.repeat(7)}0:1/4`,
    ],
    [
      '(1:1/16t9)x9 (1:1/16t11)x11 | (1:1/16t13)x13 1:1/2',
      `${'0:1/18 '.repeat(9)}${'0:1/22 '.repeat(11)}${'1:1/26 '.repeat(13)}1:1/2`,
    ],
    [':1/4 1 2 3 4', '0:1/4 0:1/4 0:1/4 0:1/4'],
    [':1/4 1 2 : 3 4 5 6', '0:1/4 0:1/4 0:1/8 0:1/8 0:1/8 0:1/8'],
    [':1/4 1 r 2:1/8 r:1/8 3', '0:1/4 0:1/4 0:1/8 0:1/8 0:1/4'],
    [':1/8t 1 2 3 : r:3/4', '0:1/12 0:1/12 0:1/12 0:3/4'],
    [':1/4. 1 1:1/8 : r:1/2', '0:3/8 0:1/8 0:1/2'],
    ['1:1/4~ 1:1/4~ 1:1/4 2:1/4', '0:1/4~ 0:1/4~ 0:1/4 0:1/4'],
    [':1/4 1..4', '0:1/4 0:1/4 0:1/4 0:1/4'],
    ['1:1/64 r:63/64', '0:1/64 0:63/64'],
  ])('%s comes to %s', (text, expected) => {
    expect(lengths(text)).toBe(expected.trim());
  });

  it.each([
    ['1:0', '1: A note lasts longer than nothing: write a note value like :1/4 or :1/8.'],
    ['1 r:0/4', '3: A note lasts longer than nothing: write a note value like :1/4 or :1/8.'],
    [':0 1', '1: A note lasts longer than nothing: write a note value like :1/4 or :1/8.'],
    ['1:1/8t2', '1: t2 is no tuplet: write t for a triplet, or t5, t6, t7 up to t13.'],
    ['1:1/8t8', '1: t8 is no tuplet: write t for a triplet, or t5, t6, t7 up to t13.'],
    ['2 1:1/8t14', '3: t14 is no tuplet: write t for a triplet, or t5, t6, t7 up to t13.'],
    ['1:1/3', neither(1, '1:1/3')],
    ['1:100', neither(1, '1:100')],
    ['1:1/4...', neither(1, '1:1/4...')],
    ['1:', neither(1, '1:')],
    [':x', neither(1, ':x')],
  ])('%s is none', (text, expected) => {
    expect(trouble(text)).toEqual([expected]);
  });
});

describe('a repeat', () => {
  it.each([
    ['(1 2)', '0 1'],
    ['(1 2)x2', '0 1 0 1'],
    ['(1 2)x2+1 1', '0 1 1 2 0'],
    ['(1 2)x3-1', '0 1 -1 0 -2 -1'],
    ['(1 2)x2+10', '0 1 10 11'],
    ['((1 2)x2 3)x2', '0 1 0 1 2 0 1 0 1 2'],
    ['(1 (2)x2+1)x2+1', '0 1 2 1 2 3'],
    ['(1 r)x2+1', '0 r 1 r'],
    ['(1)x2(2)x2', '0 0 1 1'],
  ])('%s is %s', (text, expected) => {
    expect(steps(text)).toBe(expected);
  });

  it('between repeat signs is played twice, or as often as is said, and brings its bar lines along', () => {
    expect(lengths('|: 1 :|')).toBe('0:1 1:1');
    expect(lengths('1 |: 2 :|x3 3')).toBe('0:1 1:1 2:1 3:1 4:1');
    expect(steps('|: 1 :|x3+2')).toBe('0 2 4');
    expect(lengths('1 || 2 |')).toBe('0:1 1:1');
    expect(lengths('|1|2|')).toBe('0:1 1:1');
  });

  it('may stand eight deep and no deeper', () => {
    const nested = (deep: number) => trouble(`${'('.repeat(deep)}1${')'.repeat(deep)}`);
    expect(nested(8)).toEqual([]);
    expect(nested(9)).toEqual(['9: Repeats stand in one another at most 8 deep.']);
    // One after the other is not one in another.
    expect(trouble(`${'(1)'.repeat(8)}`)).toEqual([]);
    expect(trouble(`${'(r:1/64)'.repeat(32)}1:1/2`)).toEqual([]);
  });

  it.each([
    ['1 (2 3', '3: This ( is never closed: a ) is missing.'],
    ['|: 1', '1: This |: is never closed: a :| is missing.'],
    ['1 )', '3: This ) closes nothing: a ( is missing before it.'],
    ['1 :|', '3: This :| closes nothing: a |: is missing before it.'],
    ['(1 :|', '4: This :| closes nothing: a |: is missing before it.'],
    ['|: 1 )', '6: This ) closes nothing: a ( is missing before it.'],
    ['(1)x0', '4: x0 leaves nothing to play: repeat at least once.'],
    ['|: 1 :|x0', '8: x0 leaves nothing to play: repeat at least once.'],
    ['(1 fish)', neither(4, 'fish')],
    ['(1)x', neither(4, 'x')],
  ])('%s is wrong, and where', (text, expected) => {
    expect(trouble(text)).toEqual([expected]);
  });
});

const of = (length: number) => trouble(`1${' '.repeat(length - 1)}`);

describe('what is too much', () => {
  it('is more than 8000 characters', () => {
    expect(of(8000)).toEqual([]);
    expect(of(8001)).toEqual(['1: The pattern has 8001 characters, 8000 is the limit: use repeats like (1 2 3 2)x4.']);
  });

  it('is more than 4000 notes and bar lines', () => {
    const sentence = 'The pattern comes to more than 4000 notes and bar lines, which is the limit.';
    expect(trouble('(1:1/64)x999 (1:1/64)x999 (1:1/64)x999 (1:1/64)x999 (1:1/64)x4')[0]).not.toContain('4000');
    expect(trouble('(1:1/64)x999 (1:1/64)x999 (1:1/64)x999 (1:1/64)x999 (1:1/64)x5')).toEqual([`53: ${sentence}`]);
    expect(trouble('1 ((1 2 3 4 5)x801)')).toEqual([`4: ${sentence}`]);
  });

  it('is more than 200 bars', () => {
    expect(isPattern(read('(1 |)x200'))).toBe(true);
    expect(trouble('(1 |)x201')).toEqual([
      '1: The pattern comes to more than 200 bars, which is the limit for one repetition.',
    ]);
    expect(isPattern(read('(1:1)x200'))).toBe(true);
    expect(trouble('(1:1)x201')).toHaveLength(1);
    expect(trouble('1:99 1:99 1:2')).toEqual([]);
    expect(trouble('1:99 1:99 1:3')).toHaveLength(1);
  });
});

describe('bars', () => {
  it('must fill the meter where bar lines are drawn, each said by itself', () => {
    expect(trouble('1 2 3 4 | 1 2 3 4 5 6', THREE_FOUR)).toEqual([
      '1: Bar 1 is too short by 1/4 (a quarter): it holds 2/4, and the meter is 3/4.',
    ]);
    expect(trouble('1 2 3 4 5 6 | 1:1/4 2:1/2 3:1/16', THREE_FOUR)).toEqual([
      '15: Bar 2 is too long by 1/16 (a sixteenth): it holds 13/16, and the meter is 3/4.',
    ]);
    expect(trouble('1:1/4 | 2 | 3:1/8t', SIX_EIGHT)).toEqual([
      '1: Bar 1 is too short by 1/2 (a half): it holds 2/8, and the meter is 6/8.',
      '13: Bar 3 is too short by 2/3 of a whole note: it holds 1/12, and the meter is 6/8.',
    ]);
  });

  it('are divided by the meter where none are drawn; notes that are cut are tied, rests are not', () => {
    expect(lengths('1:1/2 2:1/2 3:1/2', THREE_FOUR)).toBe('0:1/2 0:1/4~ 1:1/4 1:1/2');
    expect(lengths('1:1/2 r:1/2 3:1/2', THREE_FOUR)).toBe('0:1/2 0:1/4 1:1/4 1:1/2');
    expect(lengths('1:9/4', THREE_FOUR)).toBe(
      'Bar 1 is too long by 3/2 (a dotted whole note): it holds 9/4, and the meter is 3/4.',
    );
    expect(lengths('1:2/1 2:1/4', THREE_FOUR)).toBe('0:3/4~ 1:3/4~ 2:1/2 2:1/4');
    expect(lengths('1:1/2 2:1/2~ 2:1/2', THREE_FOUR)).toBe('0:1/2 0:1/4~ 1:1/4~ 1:1/2');
  });

  it('whose only note has no value last the bar', () => {
    expect(lengths('1', THREE_FOUR)).toBe('0:3/4');
    expect(lengths('1 | r | 2:3/4', THREE_FOUR)).toBe('0:3/4 1:3/4 2:3/4');
    expect(trouble('1:1/4', THREE_FOUR)).toHaveLength(1);
  });

  it.each([
    ['1~ 2 r:3/4', 1],
    ['1~ #1 r:3/4', 1],
    ['1 1~ r r:5/8', 3],
    ['r:7/8 1~', 7],
    ['1~ 1 2~ 3 r:1/2', 6],
  ])('a tie in %s leads nowhere', (text, at) => {
    expect(trouble(text)).toEqual([
      `${at}: A tie (-) holds a note into the next, which must be the same degree, like 1- 1.`,
    ]);
  });

  // ABC standard 2.1 (abcnotation.com): 4.5 a rest is z, 4.11 a tie is - right behind the note.
  it.each([
    ['1- 1 z:3/4', '1~ 1 r:3/4'],
    ['#1- #1 z:1/4 z z z:1/4', '#1~ #1 r:1/4 r r r:1/4'],
    ['1- | 1', '1~ | 1'],
    ['(1:1/2- 1:1/4 z:1/4 |)x2', '(1:1/2~ 1:1/4 r:1/4 |)x2'],
    [':1/4 1- 1 z 2', ':1/4 1~ 1 r 2'],
  ])('the signs of ABC in %s mean what the old ones do, which are still read', (text, old) => {
    const [ours, before] = [read(text), read(old)];
    expect(isPattern(ours)).toBe(true);
    const bare = (one: typeof ours) => (isPattern(one) ? one.notes : one);
    expect(bare(ours)).toEqual(bare(before));
  });

  it.each(['1~ 1 r:3/4', '#1~ #1 r:3/4', '1~ | 1'])('a tie in %s is right', (text) => {
    expect(trouble(text)).toEqual([]);
  });
});

describe('the notes on a beat, where nobody says', () => {
  it.each([
    ['1 2 3 4 | 1', COMMON_TIME, QUARTER, 1],
    ['1 2 3 4 5 6 7 8 | 1 2 3 4', COMMON_TIME, QUARTER, 2],
    ['1:1/2 2 3 4 5', COMMON_TIME, QUARTER, 2],
    ['1:1/4 2:1/16 r:11/16', COMMON_TIME, QUARTER, 4],
    ['r r r r r r r r', COMMON_TIME, QUARTER, 2],
    ['1:1/8 2:1/8 3:1/8', SIX_EIGHT, ratio(3, 8), 3],
    ['1:1 2', COMMON_TIME, QUARTER, 0.25],
    ['1 2 3', THREE_FOUR, QUARTER, 1],
    ['|', COMMON_TIME, QUARTER, 0.25],
    ['(1', COMMON_TIME, QUARTER, 1],
  ] as const)('of %s are as many as the fullest bar asks for', (text, meter, beat, expected) => {
    expect(notesPerBeatOf(text, meter, beat)).toBe(expected);
  });
});
