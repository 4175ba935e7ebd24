/** What is printed of a drill: values, ties, tuplets, slurs, beams, accidentals. Notation: any handbook of theory. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PrintedNote, engraved, flags, oneLine } from '../../src/music/page/engraving.ts';
import { format, ratio, ZERO, add } from '../../src/music/time/ratio.ts';
import { type Asked, drillIn } from './drills.ts';

const printed = (asked: Asked): readonly PrintedNote[] => engraved(drillIn(asked));

/** '1/4.' and the like: head with dots, a tuplet's number after a t. */
const values = (asked: Asked): string =>
  printed(asked)
    .map(({ value: { head, dots, tuplet } }) => `${head}${'.'.repeat(dots)}${tuplet ? `t${tuplet.notes}` : ''}`)
    .join(' ');

const where = (asked: Asked, mark: (note: PrintedNote) => boolean): readonly number[] =>
  printed(asked).flatMap((note, i) => (mark(note) ? [i] : []));

describe('a length', () => {
  it.each([
    ['1:1/4 1:1/4. 1:1/8 1:1/4', '4 4. 8 4'],
    ['1:1/2.. 1:1/8', '2.. 8'],
    ['1', '1'],
    ['1:5/8 r:3/8', '2 8 4.'],
    ['1:9/16 r:7/16', '2 16 4..'],
    ['1:1/8t 1:1/4t r:3/4', '8t3 4t3 2.'],
    ['1:1/16t5 r:1/16t5 1:1/8t5 1:1/16t5 r:3/4', '16t5 16t5 8t5 16t5 2.'],
    ['1:13/16 r:3/16', '2. 16 8.'],
    ['1:15/16 r:1/16', '2. 8. 16'],
  ])('%s is written %s', (pattern, written) => {
    expect(values({ pattern })).toBe(written);
  });

  it('that needs two notes is tied, its syllable on the first; a rest is not', () => {
    const notes = printed({ pattern: '1:5/8 r:3/8' });
    expect(notes.map(({ tieStart, tieStop, syllable }) => [tieStart, tieStop, syllable])).toEqual([
      [true, false, 'T'],
      [false, true, ''],
      [false, false, ''],
    ]);
    const rests = printed({ pattern: 'r:5/8 1:3/8' });
    expect(rests.map(({ tieStart, tieStop }) => tieStart || tieStop)).toEqual([false, false, false]);
    expect(rests.map(({ at }) => format(at))).toEqual(['0', '1/2', '5/8']);
  });

  it('keeps the tie that the pattern asks for', () => {
    const notes = printed({ pattern: '1:5/8~ 1:3/8 | 1' });
    expect(notes.map(({ tieStart, tieStop }) => `${tieStop ? ')' : ''}${tieStart ? '(' : ''}`)).toEqual([
      '(',
      ')(',
      ')',
      '',
    ]);
  });

  it('of a whole bar is known as such', () => {
    expect(printed({ pattern: '1 | r | 2:3/4 r:1/4' }).map(({ wholeBar }) => wholeBar)).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });

  it('fills its bar to the end, whatever the figures', () => {
    const figures = fc.constantFrom(
      '1:1/4',
      'r:1/8 2:1/8',
      '1:1/8t 2:1/8t 3:1/8t',
      '1:1/16t5 2:1/16t5 3:1/16t5 4:1/16t5 5:1/16t5',
      '1:3/16 2:1/16',
    );
    fc.assert(
      fc.property(fc.array(figures, { minLength: 4, maxLength: 4 }), (chosen) => {
        const notes = printed({ pattern: `${chosen.join(' ')} | 1` });
        const length = notes.filter(({ bar }) => bar === 0).reduce((sum, note) => add(sum, note.length), ZERO);
        expect(length).toEqual(ratio(1));
        notes.forEach((note, i) => {
          const next = notes[i + 1];
          if (next) expect(add(note.at, note.length)).toEqual(next.at);
        });
      }),
    );
  });
});

const bracket = (pattern: string): string =>
  printed({ pattern })
    .map(({ tupletStart, tupletStop }) => `${tupletStart ? '[' : ''}x${tupletStop ? ']' : ''}`)
    .join(' ');

describe('tuplets', () => {
  it.each([
    ['1:1/8t 2:1/8t 3:1/8t r:3/4', '[x x x] x'],
    ['1:1/8t 2:1/8t 3:1/8t 3:1/8t 2:1/8t 1:1/8t r:1/2', '[x x x] [x x x] x'],
    ['1:1/4t 2:1/8t 3:1/8t 1:1/4t r:1/2', '[x x] [x x] x'],
    ['1:1/16t5 2:1/16t5 3:1/16t5 4:1/16t5 5:1/16t5 r:3/4', '[x x x x x] x'],
    ['1:1/4 2:1/4 3:1/2', 'x x x'],
    ['1:1/4t 2:1/4t 3:1/4t r:1/2', '[x x x] x'],
  ])('%s have their brackets %s', (pattern, brackets) => {
    expect(bracket(pattern)).toBe(brackets);
  });
});

describe('slurs', () => {
  it('begin on their first note and end on their last, ties and all', () => {
    const slurred = { pattern: '1 2 3 4 5 4 3 2', way: 'slur 2 tongue 2' };
    expect(where(slurred, (note) => note.slurStart)).toEqual([0, 4]);
    expect(where(slurred, (note) => note.slurStop)).toEqual([1, 5]);
    const long = { pattern: '1:5/8 2:3/8 | 3:3/8 4:5/8', way: 'slurred' };
    expect(where(long, (note) => note.slurStart)).toEqual([0]);
    expect(where(long, (note) => note.slurStop)).toEqual([5]);
  });
});

const plain = (head: number) => flags({ head, dots: 0, tuplet: null });

const groups = (asked: Asked): string =>
  printed(asked)
    .map(({ group }) => group)
    .join('');

describe('beams', () => {
  it('stand by beats of a quarter or more, by the groups where the beats are shorter', () => {
    expect(groups({ pattern: '1 2 3 4 5 4 3 2' })).toBe('00112233');
    expect(groups({ pattern: '1 2 3 4 5 4', meter: '6/8', beat: ratio(3, 8), notes: 3 })).toBe('000111');
    expect(groups({ pattern: '1 2 3 4 5 4 3', meter: '7/8', beat: ratio(1, 8), notes: 1 })).toBe('0011222');
    expect(groups({ pattern: '1 2 3 4 5 4', meter: '3/4', beat: ratio(1, 8), notes: 1 })).toBe('000000');
    expect(groups({ pattern: '1 2 3 4 5 4 3 2', beat: ratio(1, 2), notes: 4 })).toBe('00001111');
    expect(groups({ pattern: '1:1/4 2:1/4 | 3:1/4 4:1/4', meter: '2/4' })).toBe('0101');
  });

  it('are one for an eighth, two for a sixteenth, none for a quarter and longer', () => {
    expect([1, 2, 4, 8, 16, 32, 64].map(plain)).toEqual([0, 0, 0, 1, 2, 3, 4]);
  });
});

const shown = (asked: Asked): string =>
  printed(asked)
    .map(({ accidental, pitch }) => (accidental ? `${pitch?.alter}` : '.'))
    .join(' ');

describe('accidentals', () => {
  it('hold to the end of their bar, in their own octave only', () => {
    expect(shown({ pattern: "#1 1 #1 #1 | #1 1 1' 1", notes: 1 })).toBe('1 0 1 . 1 0 . .');
    expect(shown({ pattern: "#1 #1' #1 #1'", notes: 1 })).toBe('1 1 . .');
  });

  it('are not shown where the signature says them, and are where it is taken back', () => {
    expect(shown({ pattern: '1 2 3 4 5 6 7 8', key: 'Eb' })).toBe('. . . . . . . .');
    expect(shown({ pattern: '4 #4 4 b4', key: 'Bb', notes: 1 })).toBe('. 0 -1 .');
  });

  it('are not shown again on a tied note, not even over the bar line, but after it', () => {
    expect(shown({ pattern: '1:3/4 #1:1/4~ | #1:1/4~ #1:1/4 #1:1/4 r:1/4' })).toBe('. 1 . . 1 .');
  });
});

describe('text in a file of one line', () => {
  it('has no control characters and no line ends', () => {
    expect(oneLine(' a\u0000\tb\r\nc\u2028d \u001b[1m')).toBe('a b c d  [1m');
  });
});
