import { soundedNotes } from '../../src/music/tongue/model-notes.ts';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ARTICULATIONS, readArticulation } from '../../src/music/tongue/articulation.ts';
import { type Drill, drillOf, fastestNotes } from '../../src/music/tongue/drill.ts';
import { INSTRUMENTS } from '../../src/music/pitch/instruments.ts';
import { type Meter, COMMON_TIME } from '../../src/music/time/meter.ts';
import { type Ratio, QUARTER, add, compare, format, ratio } from '../../src/music/time/ratio.ts';
import { HARD, SOFT, readSyllables } from '../../src/music/tongue/syllables.ts';
import { slursOf, tripleGroups } from '../../src/music/tongue/tongue-strokes.ts';
import { isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';

const METERS: Readonly<Record<string, readonly [Meter, Ratio]>> = {
  '4/4': [COMMON_TIME, QUARTER],
  '3/4': [{ count: 3, unit: 4, groups: [3] }, QUARTER],
  '6/8': [{ count: 6, unit: 8, groups: [3, 3] }, ratio(3, 8)],
  '7/8': [{ count: 7, unit: 8, groups: [2, 2, 3] }, ratio(1, 8)],
};

function drill(pattern: string, articulation: string, notesPerBeat: number, meter = '4/4', syllables = HARD): Drill {
  const [time, beat] = METERS[meter]!;
  const passage = writeOut({
    pattern,
    scale: 'major',
    key: 'C',
    meter: time,
    beat,
    notesPerBeat,
    instrument: INSTRUMENTS[0]!,
  });
  const way = readArticulation(articulation);
  if (!isPassage(passage) || typeof way === 'string')
    throw new Error(isPassage(passage) ? String(way) : passage.troubles[0]?.sentence);
  return drillOf(passage, way, syllables);
}

const SIGNS = { under: '-', held: '~', rest: 'r' } as const;
/** Strokes as a teacher would write them over the notes: beats apart, bars apart by a bar line. */
function over(pattern: string, articulation: string, notesPerBeat: number, meter = '4/4'): string {
  let [text, last] = ['', ''];
  for (const note of drill(pattern, articulation, notesPerBeat, meter).notes) {
    const place = `${note.bar}/${note.beat}`;
    if (text !== '' && place !== last) text += place.split('/')[0] === last.split('/')[0] ? ' ' : ' | ';
    last = place;
    text += note.stroke in SIGNS ? SIGNS[note.stroke as keyof typeof SIGNS] : note.syllable;
  }
  return text;
}

const SIXTEENTHS = '1 2 3 4 5 4 3 2 1 2 3 4 5 4 3 2 | 1';
const TRIPLETS = '1 2 3 2 3 4 3 4 5 4 3 2 | 1';
const MIXED = '1:1/8 2 3 1:1/8 2 3 r 1 2 3 1:1/8. 2 | 3:1/4~ 3 4 5 6 7:1/4 8 1:1/8 2';

describe('tonguing', () => {
  // Orders of syllables: double T K; triple T T K, T K T, or T K T K T K across two groups (contemporary-techniques
  // page for the tuba and an encyclopedia entry on tonguing, both read). How they meet beats, rests and
  // long notes: common practice, no source.
  it.each([
    ['slurred', 'T--- ---- ---- ---- | -'],
    ['single', 'TTTT TTTT TTTT TTTT | T'],
    ['double', 'TKTK TKTK TKTK TKTK | T'],
    ['back syllable', 'KKKK KKKK KKKK KKKK | K'],
    ['slur 2 tongue 2', 'T-TT T-TT T-TT T-TT | T'],
    ['slur 3 tongue 1', 'T--T T--T T--T T--T | T'],
    ['tongue 1 slur 3', 'TT-- TT-- TT-- TT-- | T'],
    ['tongue 2 slur 2', 'TTT- TTT- TTT- TTT- | T'],
    ['slur 2 slur 2', 'T-T- T-T- T-T- T-T- | T'],
    ['slur 2 double 2', 'T-TK T-TK T-TK T-TK | T'],
  ])('%s in sixteenths', (way, strokes) => {
    expect(over(SIXTEENTHS, way, 4)).toBe(strokes);
  });

  it.each([
    ['triple', 'TTK TTK TTK TTK | T'],
    ['triple TKT', 'TKT TKT TKT TKT | T'],
    ['triple TKT KTK', 'TKT KTK TKT KTK | T'],
    ['double over triplets', 'TKT KTK TKT KTK | T'],
    ['double', 'TKT TKT TKT TKT | T'],
    ['slur 2 tongue 1', 'T-T T-T T-T T-T | T'],
    ['tongue 1 slur 2', 'TT- TT- TT- TT- | T'],
  ])('%s in triplets', (way, strokes) => {
    expect(over(TRIPLETS, way, 3)).toBe(strokes);
  });

  it.each([
    ['double', 'TTK TTK rTKT TK | T ~TKT T TKT'],
    ['triple', 'TTK TTK rTTK TK | T ~TTK T TKT'],
    ['slurred', 'T-- --- rT-- -- | - ~--- - ---'],
    ['slur 2 tongue 1', 'T-T T-T rT-T T- | T ~T-T T T-T'],
  ])('%s over mixed values, rests, ties and long notes', (way, strokes) => {
    expect(over(MIXED, way, 4)).toBe(strokes);
  });

  it.each([
    ['double', '3/4', 1, '1 2 3 | 3 2 1', 'T K T | T K T'],
    ['triple', '3/4', 1, '1 2 3 | 3 2 1', 'T T K | T T K'],
    ['triple TKT KTK', '3/4', 3, '1 2 3 2 3 4 3 4 5 | 1 2 3 2 3 4 3 4 5', 'TKT KTK TKT | TKT KTK TKT'],
    ['double over triplets', '3/4', 3, '1 2 3 2 3 4 3 4 5 | 1 2 3 2 3 4 3 4 5', 'TKT KTK TKT | KTK TKT KTK'],
    ['double', '7/8', 1, '1 2 3 4 5 4 3', 'T K T K T K T'],
    ['triple', '7/8', 1, '1 2 3 4 5 4 3', 'T K T K T T K'],
    ['triple', '6/8', 3, '1..6', 'TTK TTK'],
    ['triple', '4/4', 5, '(1..5)x4', 'TTKTK TTKTK TTKTK TTKTK'],
    ['triple', '4/4', 6, '(1..6)x4', 'TTKTTK TTKTTK TTKTTK TTKTTK'],
    ['double', '4/4', 2, '1..8', 'TK TK TK TK'],
    ['double', '4/4', 1, '1 2 3 4', 'T K T K'],
    ['single', '4/4', 1, '1 2 3 4', 'T T T T'],
  ])('%s in %s at %i to the beat', (way, meter, notes, pattern, strokes) => {
    expect(over(pattern, way, notes, meter)).toBe(strokes);
  });

  it('breaks groups that are no threes into threes and twos', () => {
    expect([1, 2, 3, 4, 5, 6, 7, 8, 9].map(tripleGroups)).toEqual([
      [1],
      [2],
      [3],
      [2, 2],
      [3, 2],
      [3, 3],
      [3, 2, 2],
      [3, 3, 2],
      [3, 3, 3],
    ]);
  });

  // Triple goes in threes, double in twos: the sources above; what it comes out as elsewhere is what `over` shows.
  it.each([
    [
      'triple',
      SIXTEENTHS,
      4,
      '4/4',
      'The quick notes stand in fours, where triple has no three to tongue: it comes out as TKTK, which is double.',
    ],
    [
      'triple TKT',
      SIXTEENTHS,
      4,
      '4/4',
      'The quick notes stand in fours, where triple has no three to tongue: it comes out as TKTK, which is double.',
    ],
    [
      'double',
      '1 2 3 4 5 4 | 3',
      3,
      '6/8',
      'The quick notes stand in threes, so double begins anew on each group as TKT; triple or double over ' +
        'triplets would run through.',
    ],
  ] as const)('%s that does not go into the notes is worth a word', (way, pattern, notes, meter, sentence) => {
    expect(drill(pattern, way, notes, meter).remarks).toEqual([sentence]);
    expect(over(pattern, way, notes, meter)).toMatch(way === 'double' ? /^TKT TKT/ : /^TKTK TKTK/);
  });

  it.each([
    ['triple', TRIPLETS, 3, '4/4'],
    ['triple', '1 2 3 4 5 4 3', 1, '7/8'],
    ['double', '1 2 3 4 5 4 3', 1, '7/8'],
    ['double', SIXTEENTHS, 4, '4/4'],
    ['double', '1 2 3 4 5 4 3 2 1 2 3 4', 6, '6/8'],
    ['double over triplets', TRIPLETS, 3, '4/4'],
    ['single', SIXTEENTHS, 4, '4/4'],
  ] as const)('%s that goes into the notes, or partly, is not: %s, %i on a beat, %s', (way, pattern, notes, meter) => {
    expect(drill(pattern, way, notes, meter).remarks).toEqual([]);
  });

  it('never slurs a note to its own pitch', () => {
    expect(over('1 1 2 2 3 3 4 4', 'slurred', 2)).toBe('TT -T -T -T');
    expect(slursOf(drill('1 1 2 2 3 3 4 4', 'slurred', 2).notes.map((note) => note.stroke))).toEqual([
      [1, 2],
      [3, 4],
      [5, 6],
    ]);
  });

  it('keeps a tie under its slur', () => {
    expect(slursOf(drill('1:1/4 2:1/4~ 2:1/4 3:1/4 | 4', 'slurred', 1).notes.map((note) => note.stroke))).toEqual([
      [0, 4],
    ]);
  });
});

describe('in any rhythm', () => {
  const figures = fc.constantFrom(
    '1:1/16 2:1/16 3:1/16 4:1/16',
    '1:1/8 2:1/16 3:1/16',
    '5:1/16 4:1/8 3:1/16',
    '1:1/8t 2:1/8t 3:1/8t',
    'r:1/16 1:1/16 2:1/16 3:1/16',
    '1:1/8. 2:1/16',
    '4:1/4',
    'r:1/8 2:1/16 1:1/16',
    '3:1/8 4:1/8',
    '1:1/16t5 2:1/16t5 3:1/16t5 4:1/16t5 5:1/16t5',
  );
  const patterns = fc
    .array(figures, { minLength: 4, maxLength: 16 })
    .map((chosen) => `${chosen.join(' ')} ${'r:1/4 '.repeat((4 - (chosen.length % 4)) % 4)}`);

  it('no back syllable follows another in double or triple, unless a rest stands between', () => {
    fc.assert(
      fc.property(
        patterns,
        fc.constantFrom(
          'double',
          'triple',
          'triple TKT',
          'triple TKT KTK',
          'double over triplets',
          'double long-short',
        ),
        (pattern, way) => {
          const { notes } = drill(pattern, way, 4);
          notes.forEach((note, i) => {
            if (note.stroke === 'back') expect(notes[i - 1]?.stroke).not.toBe('back');
            if (note.stroke === 'back') expect(notes[i - 1]?.stroke).not.toBe('rest');
          });
        },
      ),
    );
  });

  it('every note has exactly one stroke, slur, tie or rest, and long-short fills the same bars', () => {
    fc.assert(
      fc.property(patterns, fc.constantFrom(...ARTICULATIONS, 'slur 3 tongue 1'), (pattern, way) => {
        const even = drill(pattern, way, 4);
        const dotted = drill(pattern, `${way} long-short`, 4);
        expect(dotted.notes.map((note) => note.stroke)).toEqual(even.notes.map((note) => note.stroke));
        let at = ratio(0);
        for (const note of dotted.notes) {
          expect(format(note.at)).toBe(format(at));
          expect((note.syllable === '') === ['under', 'held', 'rest'].includes(note.stroke)).toBe(true);
          at = add(at, note.length);
        }
        expect(format(at)).toBe(`${even.bars}`);
      }),
    );
  });
});

const lengths = (pattern: string, way: string, notes: number) =>
  drill(pattern, way, notes)
    .notes.map((note) => format(note.length))
    .join(' ');

describe('long-short', () => {
  it('dots pairs and keeps threes notatable', () => {
    expect(lengths('1..8', 'double long-short', 2)).toBe('3/16 1/16 3/16 1/16 3/16 1/16 3/16 1/16');
    expect(lengths(TRIPLETS, 'triple long-short', 3)).toBe('1/8 1/16 1/16 1/8 1/16 1/16 1/8 1/16 1/16 1/8 1/16 1/16 1');
    expect(drill('1..8', 'double long-short', 2).notes[1]).toMatchObject({
      beat: 0,
      inBeat: { n: 3, d: 4 },
      syllable: 'K',
    });
  });
});

describe('syllables', () => {
  it("are hard, soft or the player's own", () => {
    expect(drill('1 2 3 4', 'double', 1, '4/4', SOFT).notes.map((note) => note.syllable)).toEqual(['D', 'G', 'D', 'G']);
    expect(readSyllables('T-K')).toBe(HARD);
    expect(readSyllables('ta-ka')).toEqual({ name: 'ta-ka', front: 'ta', back: 'ka' });
    for (const wrong of ['', 'tk', 't-k-t', 'toolong-k', '\u001b-k', '1-2'])
      expect(readSyllables(wrong)).toMatch(/is no pair of syllables/);
  });
});

const name = (text: string) => (readArticulation(text) as { name?: string }).name;

describe('names of articulations', () => {
  it('are read in the words that players use', () => {
    expect(
      ['Slurred', 'TTK', 'tkt ktk', 'back', 'slur 2  tongue 2', 'Double Even', 'triple long-short'].map(name),
    ).toEqual([
      'slurred',
      'triple',
      'triple TKT KTK',
      'back syllable',
      'slur 2 tongue 2',
      'double even',
      'triple long-short',
    ]);
    for (const one of ARTICULATIONS) expect(name(one)).toBe(one);
  });

  it.each(['', 'quadruple', 'slur 0 tongue 1', 'slur 2 tongue', 'slur two', 'slur 99', 'even'])(
    '%j is refused with all the names there are',
    (text) => {
      expect(readArticulation(text)).toMatch(/is no way of tonguing: write slurred, single, double, triple/);
    },
  );
});

describe('the drill as sound', () => {
  it('is in concert pitch, ties made one note, slurred notes without a new attack', () => {
    const notes = soundedNotes(drill('1:1/4 2:1/4~ 2:1/4 r:1/4', 'slurred', 1));
    expect(notes).toMatchObject([
      { at: { n: 0, d: 1 }, length: { n: 1, d: 4 }, slurred: false },
      { at: { n: 1, d: 4 }, length: { n: 7, d: 16 }, slurred: true },
    ]);
    expect(notes[1]!.midi - notes[0]!.midi).toBe(2);
  });

  it('never sounds two notes at once, and every attack has its note', () => {
    for (const way of ARTICULATIONS) {
      const one = drill(MIXED, way, 4);
      const notes = soundedNotes(one);
      expect(notes).toHaveLength(one.notes.filter((note) => note.pitch && !note.tiedFrom).length);
      notes.forEach((note, i) => {
        const next = notes[i + 1];
        if (next) expect(compare(add(note.at, note.length), next.at)).toBeLessThanOrEqual(0);
      });
    }
  });

  it('knows its fastest notes per second', () => {
    // Arithmetic: sixteenths at 120 = 8.0, triplets at 120 = 6.0, sixteenths at 144 = 9.6.
    expect(fastestNotes(drill(SIXTEENTHS, 'single', 4), 120)).toBe(8);
    expect(fastestNotes(drill(TRIPLETS, 'single', 3), 120)).toBe(6);
    expect(fastestNotes(drill(SIXTEENTHS, 'single', 4), 144)).toBeCloseTo(9.6);
  });
});
