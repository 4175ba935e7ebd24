/**
 * The finer rules of tonguing: where counting begins afresh, what long notes do, uneven rhythms, and the drill as
 * sound. Common practice, no source.
 */
import { soundedNotes } from '../../src/music/tongue/model-notes.ts';
import { describe, expect, it } from 'vitest';
import { type Asked, drillIn, passageIn } from './drills.ts';
import { format, ratio } from '../../src/music/time/ratio.ts';
import { readArticulation } from '../../src/music/tongue/articulation.ts';
import { drillOf, fastestNotes } from '../../src/music/tongue/drill.ts';
import { stretchOfEach, stretchesOf } from '../../src/music/tongue/fresh-starts.ts';
import { SOFT } from '../../src/music/tongue/syllables.ts';
import { slursOf, tripleGroups } from '../../src/music/tongue/tongue-strokes.ts';
import { unevenly } from '../../src/music/tongue/uneven-rhythm.ts';
import { unfitTonguing } from '../../src/music/tongue/unfit-tonguing.ts';

const SIGNS = { front: 'T', back: 'K', under: '-', held: '~', rest: 'r' } as const;
const strokes = (asked: Asked): string =>
  drillIn(asked)
    .notes.map(({ stroke }) => SIGNS[stroke])
    .join('');

const stretches = (asked: Omit<Asked, 'way'>, least: number): string =>
  stretchesOf(passageIn(asked), least)
    .map(({ at, length }) => `${format(at)}+${format(length)}`)
    .join(' ');

describe('counting', () => {
  it.each([
    // A rest or a long note is followed by a fresh front stroke.
    ['double', '1 2 r 3 4 5 6 7', 2, 'TKrTTKTK'],
    ['double', '1:1/16 2:1/16 3:1/16 r:1/16 4:1/16 3:1/16 2:1/16 1:1/16 1:1/2', 4, 'TKTrTKTKT'],
    ['double', '1:1/4 2:1/8 3:1/8 4:1/2', 2, 'TTKT'],
    ['triple', '1:1/8t 2:1/8t r:1/8t 3:1/8t 4:1/8t 5:1/8t 1:1/2', 3, 'TTrTTKT'],
    ['triple', 'r:1/8t 2:1/8t 3:1/8t 3:1/8t 4:1/8t 5:1/8t 1:1/2', 3, 'rTKTTKT'],
    ['triple TKT KTK', '1:1/8t 2:1/8t 3:1/8t r:1/8t 4:1/8t 5:1/8t 1:1/2', 3, 'TKTrTKT'],
    ['double over triplets', '1:1/8t 2:1/8t 3:1/8t 3:1/8t 4:1/8t 5:1/8t 1:1/4 2:1/8t 3:1/8t 4:1/8t', 3, 'TKTKTKTTKT'],
    ['slur 2 tongue 2', '1:1/16 2:1/16 3:1/16 4:1/16 5:1/8 r:1/8 1:1/16 2:1/16 3:1/16 4:1/16 5:1/4', 4, 'T-TTTrT-TTT'],
    ['slur 3', '1 2 3 4 5 6 7 8', 2, 'T--T--T-'],
    ['back 2 double 2', '1 2 3 4 5 6 7 8', 2, 'KKTKKKTK'],
    ['back', '1 2 3:1/4 r:1/4 4:1/4', 2, 'KKKrK'],
    // An eighth and two sixteenths: the eighth takes two of the four equal parts.
    ['double', '1:1/8 2:1/16 3:1/16 4:1/16 5:1/8 6:1/16 1:1/2', 4, 'TTKTKTT'],
    ['double', '1:1/8. 2:1/16 3:1/16 4:1/8. 1:1/2', 4, 'TKTKT'],
    ['triple', '1:1/8 2:1/16 3:1/16 1:3/4', 4, 'TTKT'],
    ['triple', '1:1/16 2:1/16 3:1/8 1:3/4', 4, 'TKTT'],
    // No equal parts: the notes themselves are counted.
    ['double', '1:1/16. 2:1/16 3:1/16. 1:3/4', 4, 'TKTT'],
    ['triple', '1:1/16. 2:1/16 3:1/16. 1:3/4', 4, 'TTKT'],
    // A note is as long as its ties: begun off the beat, it is held over the next.
    ['double', '1 2~ 2:1/4 3:1/2', 2, 'TT~T'],
    ['slur 2 tongue 1', '1:1/4 2:1/4 3:1/4 r:1/4', 4, 'T-Tr'],
  ])('%s over %s at %i to the beat', (way, pattern, notes, expected) => {
    expect(strokes({ pattern, way, notes })).toBe(expected);
  });

  it('takes the equal parts of a beat from the notes begun in it, not from its rests', () => {
    const pattern = '1 2 r:1/16 r:1/16 3 4 5';
    expect(strokes({ pattern, way: 'double', notes: 3, meter: '6/8', beat: ratio(3, 8) })).toBe('TKrrTKT');
  });

  it('begins afresh with each bar where it is asked for, and runs on where not', () => {
    const pattern = '1 2 3 2 3 4 3 4 5 | 1 2 3 2 3 4 3 4 5';
    expect(strokes({ pattern, way: 'triple alternating', notes: 3, meter: '3/4' })).toBe('TKTKTKTKTTKTKTKTKT');
    expect(strokes({ pattern, way: 'double over triplets', notes: 3, meter: '3/4' })).toBe('TKTKTKTKTKTKTKTKTK');
  });

  it('of a mixed pattern begins afresh on each beat that holds whole cycles, and with each bar', () => {
    expect(strokes({ pattern: '1 2 3 4 5 4 3 2 1 2 3 4 5 4 3 2', way: 'slur 2 tongue 1', notes: 4 })).toBe(
      'T-TT-TT-TT-TT-TT',
    );
    expect(strokes({ pattern: '1 2 3 4 5 4 3 2 | 1 2 3 4 5 4 3 2', way: 'slur 2 tongue 1', notes: 2 })).toBe(
      'T-TT-TT-T-TT-TT-',
    );
    expect(strokes({ pattern: '1 2 3 2 3 4 3 4 5 4 3 2', way: 'slur 2 tongue 1', notes: 3 })).toBe('T-TT-TT-TT-T');
  });

  it('puts no slur on a repeated pitch, across a rest or over a tie to itself', () => {
    expect(strokes({ pattern: '1 1 2 2 r 2 3 3', way: 'slurred' })).toBe('TT-TrT-T');
    expect(strokes({ pattern: '1:1/4~ 1:1/8 2 3 4:3/8', way: 'slurred' })).toBe('T~---');
  });

  it('goes by groups where a beat holds too few notes, else by beats', () => {
    expect(stretches({ pattern: '1 2 3 4 5 4 3 2' }, 2)).toBe('0+1/4 1/4+1/4 1/2+1/4 3/4+1/4');
    expect(stretches({ pattern: '1 2 3 4 5 4 3 2' }, 3)).toBe('0+1');
    expect(stretches({ pattern: '1 2 3 4 5 4 3', meter: '7/8', beat: ratio(1, 8), notes: 1 }, 2)).toBe(
      '0+1/4 1/4+1/4 1/2+3/8',
    );
    expect(stretches({ pattern: '1 2 | 3 4', meter: '2/4', notes: 1 }, 1)).toBe('0+1/4 1/4+1/4 1/2+1/4 3/4+1/4');
    // Rests do not count as notes: the shortest note is a quarter.
    expect(stretches({ pattern: '1:1/4 r:1/16 r:1/16 r:1/8 2:1/2' }, 2)).toBe('0+1');
    const { notes } = passageIn({ pattern: '1:1/8 2:1/4 3:1/8 4:1/2' });
    expect(stretchOfEach(notes, stretchesOf(passageIn({ pattern: '1 2 3 4 5 4 3 2' }), 1))).toEqual([0, 0, 1, 2]);
  });
});

describe('threes and twos', () => {
  it('add up, threes first, twos for what is left', () => {
    for (let slots = 1; slots <= 40; slots += 1) {
      const groups = tripleGroups(slots);
      expect(groups.reduce((a, b) => a + b, 0)).toBe(slots);
      expect(groups).toEqual([...groups].sort((a, b) => b - a));
      expect(groups.filter((group) => group === 2).length).toBeLessThanOrEqual(2);
      if (slots > 1) expect(groups).not.toContain(1);
    }
    expect(tripleGroups(0)).toEqual([]);
  });
});

// A slur takes in the ties of its first and of its last note: handbooks of notation, from memory.
describe('slurs as pairs', () => {
  it.each([
    [
      ['front', 'under', 'front', 'under', 'under'],
      [
        [0, 1],
        [2, 4],
      ],
    ],
    [['front', 'held', 'under', 'held', 'front'], [[0, 3]]],
    [['front', 'under', 'held', 'under', 'rest'], [[0, 3]]],
    [
      ['front', 'under', 'held', 'held', 'front', 'under'],
      [
        [0, 3],
        [4, 5],
      ],
    ],
    [['front', 'front', 'held'], []],
    [['rest', 'front', 'held', 'rest'], []],
  ] as const)('%j hold %j', (given, expected) => {
    expect(slursOf(given)).toEqual(expected);
  });
});

const lengths = (asked: Omit<Asked, 'way'>, rhythm: 'long-short' | 'short-long' = 'long-short'): string =>
  unevenly(passageIn(asked), rhythm)
    .notes.map(({ at, length }) => `${format(at)}+${format(length)}`)
    .join(' ');

describe('an uneven rhythm', () => {
  it.each([
    ['pairs', { pattern: '1 2 3:1/4 4:1/2' }, '0+3/16 3/16+1/16 1/4+1/4 1/2+1/2'],
    ['fours', { pattern: '1 2 3 4 5:3/4', notes: 4 }, '0+3/32 3/32+1/32 1/8+3/32 7/32+1/32 1/4+3/4'],
    ['threes', { pattern: '1 2 3 5:3/4', notes: 3 }, '0+1/8 1/8+1/16 3/16+1/16 1/4+3/4'],
    [
      'sixes',
      { pattern: '1 2 3 4 5 6 5:3/4', notes: 6 },
      '0+1/16 1/16+1/32 3/32+1/32 1/8+1/16 3/16+1/32 7/32+1/32 1/4+3/4',
    ],
  ])('dots %s', (_, asked, expected) => {
    expect(lengths(asked)).toBe(expected);
  });

  it('turns round', () => {
    expect(lengths({ pattern: '1 2 3:1/4 4:1/2' }, 'short-long')).toBe('0+1/16 1/16+3/16 1/4+1/4 1/2+1/2');
    expect(lengths({ pattern: '1 2 3 5:3/4', notes: 3 }, 'short-long')).toBe('0+1/16 1/16+1/16 1/8+1/8 1/4+3/4');
  });

  it.each([
    ['a rest among them', { pattern: '1 r 2 3 4:1/2' }, '0+1/8 1/8+1/8 1/4+3/16 7/16+1/16 1/2+1/2'],
    ['a tie out of them', { pattern: '1 2~ 2 3 4:1/2' }, '0+1/8 1/8+1/8 1/4+1/8 3/8+1/8 1/2+1/2'],
    ['unequal notes', { pattern: '1:1/16 2:3/16 2:1/8 3:1/8 4:1/2' }, '0+1/16 1/16+3/16 1/4+3/16 7/16+1/16 1/2+1/2'],
    [
      'five',
      { pattern: ':1/16t5 1 2 3 4 5 : 1 2 3:1/2' },
      '0+1/20 1/20+1/20 1/10+1/20 3/20+1/20 1/5+1/20 1/4+3/16 7/16+1/16 1/2+1/2',
    ],
    ['one alone', { pattern: '1:1/4 2 3 4:1/2' }, '0+1/4 1/4+3/16 7/16+1/16 1/2+1/2'],
  ])('leaves %s as they are', (_, asked, expected) => {
    expect(lengths(asked)).toBe(expected);
  });

  it('keeps bars and beats right, in the second bar too', () => {
    const { notes } = unevenly(passageIn({ pattern: '1 2 3 4 5 4 3 2 | 1 2 3 4 5 4 3 2' }), 'long-short');
    expect(
      notes.slice(8, 11).map(({ bar, beat, inBeat, at }) => `${bar}.${beat}+${format(inBeat)} ${format(at)}`),
    ).toEqual(['1.0+0 1', '1.0+3/4 19/16', '1.1+0 5/4']);
  });
});

const word = (asked: Omit<Asked, 'way'>, way: string): string | null => {
  const articulation = readArticulation(way);
  return typeof articulation === 'string' ? articulation : unfitTonguing(passageIn(asked), articulation);
};

describe('a word about what does not fit', () => {
  it.each([[4, 'fours', 'TKTK']])('triple on %i notes a beat', (notes, count, comesOut) => {
    const pattern = `(${Array.from({ length: notes }, (_, i) => i + 1).join(' ')})x4`;
    expect(word({ pattern, notes }, 'triple')).toBe(
      `The quick notes stand in ${count}, where triple has no three to tongue: it comes out as ${comesOut}, ` +
        'which is double.',
    );
  });

  it.each([
    [3, 'threes', 'TKT'],
    [5, 'fives', 'TKTKT'],
    [7, 'sevens', 'TKTKTKT'],
    [9, 'groups of 9', 'TKTKTKTKT'],
  ])('double on %i notes a beat', (notes, count, comesOut) => {
    const pattern = `(${Array.from({ length: notes }, (_, i) => i + 1).join(' ')})x4`;
    expect(word({ pattern, notes }, 'double')).toBe(
      `The quick notes stand in ${count}, so double begins anew on each group as ${comesOut}; triple or double over ` +
        'triplets would run through.',
    );
  });

  it.each(['single', 'slurred', 'triple alternating', 'slur 2 tongue 1'])('none about %s', (way) => {
    expect(word({ pattern: '(1 2 3)x4', notes: 3 }, way)).toBeNull();
  });

  it('goes by notes that stand together, not by one alone', () => {
    expect(word({ pattern: 'r r 1 2 3 4 3 2 1 5 4 3', notes: 3 }, 'double')).toMatch(
      /^The quick notes stand in threes/u,
    );
    expect(word({ pattern: '1 2 | 2 1', meter: '2/8', beat: ratio(1, 8), notes: 1 }, 'triple')).toBe(
      'The quick notes stand in twos, where triple has no three to tongue: it comes out as TK, which is double.',
    );
  });

  it('none where some of the notes fit, or none are quick', () => {
    expect(word({ pattern: '1 2 3 : 1:1/8 2:1/8 r:1/2', notes: 3 }, 'double')).toBeNull();
    expect(word({ pattern: '1', notes: 3 }, 'triple')).toBeNull();
    expect(word({ pattern: '1 2 3 4 5 4 3 2' }, 'triple')).toBeNull();
    expect(word({ pattern: '1 2 3 4 5 6 1 2 3 4 5 6 1:1/2', notes: 6 }, 'triple')).toBeNull();
  });

  it('is a remark of the drill, after those of the passage', () => {
    const drill = drillIn({ pattern: '(1 2 3 4)x4', notes: 4, way: 'triple', key: 'Db', scale: 'harmonic minor' });
    expect(drill.remarks).toHaveLength(2);
    expect(drill.remarks[1]).toMatch(/^The quick notes stand in fours/u);
  });
});

const sounded = (way: string) =>
  soundedNotes(drillIn({ pattern: '1:1/4 2:1/4 3:1/4~ 3:1/8 4:1/8 | 5:1/2~ 5:1/4 r:1/4', way })).map(
    ({ at, length, slurred }) => `${format(at)}+${format(length)}${slurred ? '-' : ''}`,
  );

describe('a drill', () => {
  it('speaks the syllables that were asked for, on strokes only', () => {
    const articulation = readArticulation('double');
    if (typeof articulation === 'string') throw new Error(articulation);
    const drill = drillOf(passageIn({ pattern: '1~ 1 r 2 3 4:3/8' }), articulation, SOFT);
    expect(drill.notes.map(({ syllable }) => syllable)).toEqual(['D', '', '', 'D', 'D', 'D']);
    expect(drill.articulation).toBe(articulation);
  });

  it('of pulses says how many stand on each beat', () => {
    expect(
      drillIn({ pattern: '1:1/4 2:1/4~ 2:1/4 r:1/4', way: 'pulses 5' }).notes.map(({ syllable }) => syllable),
    ).toEqual(['5~', '5~', '', '']);
  });

  it('keeps its strokes in a long-short rhythm', () => {
    const drill = drillIn({ pattern: '(1 2 3 4)x2', way: 'double long-short' });
    expect(drill.notes.map(({ syllable }) => syllable).join('')).toBe('TKTKTKTK');
    expect(format(drill.notes[1]!.length)).toBe('1/16');
  });

  it('sounds a little stronger on the bar and on the beats', () => {
    const gains = soundedNotes(drillIn({ pattern: '1 2 3 4 5 4 3 2 | 1' })).map(({ gain }) => gain);
    expect(gains).toEqual([1, 0.8, 0.9, 0.8, 0.9, 0.8, 0.9, 0.8, 1]);
  });

  it('leaves air after tongued notes, runs on under slurs, and makes ties one note', () => {
    expect(sounded('single')).toEqual(['0+7/32', '1/4+7/32', '1/2+21/64', '7/8+7/64', '1+21/32']);
    expect(sounded('slurred')).toEqual(['0+1/4', '1/4+1/4-', '1/2+3/8-', '7/8+1/8-', '1+21/32-']);
  });

  it('knows how fast its fastest notes are', () => {
    expect(fastestNotes(drillIn({ pattern: '1 2 3 4 5 4 3 2' }), 60)).toBe(2);
    expect(fastestNotes(drillIn({ pattern: '1:1/4 r:1/16 2:1/16 3:1/8 4:1/2' }), 60)).toBe(4);
    expect(fastestNotes(drillIn({ pattern: '1:1/4~ 1:1/16 r:3/16 4:1/2' }), 60)).toBe(1);
    expect(fastestNotes(drillIn({ pattern: '1 2 3 4 5 4', meter: '6/8', beat: ratio(3, 8), notes: 3 }), 80)).toBe(4);
  });
});
