import { describe, expect, it } from 'vitest';
import { readArticulation } from '../../src/music/tongue/articulation.ts';
import { drillOf } from '../../src/music/tongue/drill.ts';
import { INSTRUMENTS } from '../../src/music/pitch/instruments.ts';
import { type Meter, COMMON_TIME } from '../../src/music/time/meter.ts';
import { QUARTER, type Ratio, ratio } from '../../src/music/time/ratio.ts';
import { type Lettering, type Strip, stripOf } from '../../src/music/page/strip.ts';
import { isPassage, writeOut } from '../../src/music/pattern/written-in-key.ts';
import { noteStrip, stripHeight } from '../../src/ui/components/note-strip.ts';
import { plainText, widthOf } from '../../src/ui/paint.ts';

interface Asked {
  readonly pattern: string;
  readonly key: string;
  readonly way: string;
  readonly notes: number;
  readonly meter?: Meter;
  readonly beat?: Ratio;
  readonly lettering?: Lettering;
}

function strip({ pattern, key, way, notes, meter = COMMON_TIME, beat = QUARTER, lettering = 'signs' }: Asked): Strip {
  const passage = writeOut({
    pattern,
    scale: 'major',
    key,
    meter,
    beat,
    notesPerBeat: notes,
    instrument: INSTRUMENTS[0]!,
  });
  const articulation = readArticulation(way);
  if (!isPassage(passage) || typeof articulation === 'string') throw new Error('cannot be written');
  return stripOf(drillOf(passage, articulation), lettering);
}

const FIVE = '1 2 3 4 5 4 3 2 1 2 3 4 5 4 3 2 | 1';
const SEVEN: Meter = { count: 7, unit: 8, groups: [2, 2, 3] };
const following = (drawn: Strip, bar: number): number | null => (bar + 1 < drawn.bars.length ? bar + 1 : null);
const frame = (drawn: Strip, bar: number, beat: number | null, width = 80): string =>
  `\n${plainText(noteStrip({ strip: drawn, bar, beat, next: following(drawn, bar) }, width, 8))}\n`;

describe('the note strip', () => {
  it('sets each syllable beneath its note and marks the sounding beat by shape', () => {
    expect(frame(strip({ pattern: FIVE, key: 'F#', way: 'double', notes: 4 }), 0, 1)).toBe(`
 1                  ▼2━━━━━━━━━━━━━━━━━  3                  4
│F♯4  G♯   A♯   B   ┊C♯   B    A♯   G♯  ┊F♯  G♯   A♯   B   ┊C♯   B    A♯   G♯
│T    K    T    K   ┊T    K    T    K   ┊T   K    T    K   ┊T    K    T    K
┊F♯4──────────────────────────────────────────────────────────────────────────
┊T
`);
  });

  it('draws slurs from the stroke to their last note', () => {
    expect(frame(strip({ pattern: FIVE, key: 'Eb minor', way: 'slur 2 tongue 2', notes: 4 }), 0, 0, 72)).toBe(`
▼1━━━━━━━━━━━━━━━  2                 3                4
│E♭4 F    G♭  A♭  ┊B♭  A♭   G♭  F   ┊E♭  F   G♭   A♭ ┊B♭   A♭  G♭   F
│T───╯    T   T   ┊T───╯    T   T   ┊T───╯   T    T  ┊T────╯   T    T
┊E♭4──────────────────────────────────────────────────────────────────
┊T
`);
  });

  it('divides 7/8 at its groups and 6/8 at its beats', () => {
    const seven = strip({
      pattern: '1 3 5 3 1 3 5 | 4 6 8 6 4 6 8',
      key: 'C',
      way: 'double',
      notes: 1,
      meter: SEVEN,
      beat: ratio(1, 8),
    });
    expect(frame(seven, 1, 4)).toBe(`
 1          2           3          4         ▼5━━━━━━━━  6           7
│F4         A          ┊C          A         ┊F          A           C
│T          K          ┊T          K         ┊T          K           T
`);
    const six = strip({
      pattern: '1..6',
      key: 'Eb minor',
      way: 'triple',
      notes: 3,
      meter: { count: 6, unit: 8, groups: [3, 3] },
      beat: ratio(3, 8),
    });
    expect(frame(six, 0, null, 40)).toBe(`
 1                   2
│E♭4    F     G♭    ┊A♭    B♭     C♭
│T      T     K     ┊T     T      K
`);
  });

  it('shows leaps with an arrow, rests with a dot, long notes and ties with a line', () => {
    expect(frame(strip({ pattern: '1 5 8 5 1 5 8 5 3:1/4~ 3 2 1 r', key: 'Bb', way: 'single', notes: 4 }), 0, null))
      .toBe(`
 1                   2                   3                  4
│B♭3  ↑F   B♭   F   ┊↓B♭  ↑F   B♭   F   ┊D──────────────── ┊───  C    B♭   ·
│T    T    T    T   ┊T    T    T    T   ┊T                 ┊     T    T
`);
  });

  it('can do without signs', () => {
    const plain = strip({ pattern: '1 5 8 5 b7 #4 r r', key: 'Eb', way: 'single', notes: 2, lettering: 'plain' });
    expect(frame(plain, 0, null, 60).split('\n')[2]).toBe('│Eb4    ^Bb    ┊Eb     Bb     ┊Db     A     ┊.       .');
  });

  it('breaks a bar that is too full between beats, and pages it where there is no height', () => {
    const full = strip({ pattern: '(1..8)x4', key: 'F#', way: 'double', notes: 8 });
    const rows = noteStrip({ strip: full, bar: 0, beat: 2, next: null }, 80, 6);
    expect(rows).toHaveLength(6);
    expect(plainText(rows.slice(3))).toContain('▼3');
    const page = noteStrip({ strip: full, bar: 0, beat: 2, next: null }, 80, 3);
    expect(page).toHaveLength(3);
    expect(plainText(page)).toContain('▼3');
  });

  it('keeps its height from bar to bar', () => {
    const one = strip({ pattern: FIVE, key: 'C', way: 'single', notes: 4 });
    expect(stripHeight(one, 80, 6)).toBe(5);
    for (const bar of [0, 1])
      expect(noteStrip({ strip: one, bar, beat: 0, next: bar === 0 ? 1 : null }, 80, 5).length).toBeLessThanOrEqual(5);
  });

  it('never is wider than it may be, every note having its own column and its syllable beneath it', () => {
    const patterns = [
      FIVE,
      '(1..6)x4',
      '(1..8)x4',
      '1:1/8. 2:1/16 3:1/4~ 3:1/8 4 5 r:1/4',
      '1:1/16t5 2:1/16t5 3:1/16t5 4:1/16t5 5:1/16t5 6:3/4',
    ];
    for (const pattern of patterns) {
      for (const key of ['C', 'F#', 'Eb minor', 'G# minor']) {
        for (const width of [60, 80, 120]) {
          const drawn = strip({
            pattern,
            key,
            way: 'double',
            notes: pattern.includes('8)') ? 8 : pattern.includes('6)') ? 6 : 4,
          });
          const rows = noteStrip({ strip: drawn, bar: 0, beat: 0, next: null }, width, 40);
          for (const row of rows) expect(widthOf(row)).toBeLessThanOrEqual(width);
          const text = plainText(rows).split('\n');
          const notes =
            text
              .filter((_, i) => i % 3 === 1)
              .join(' ')
              .match(/[A-G][♯♭x]*/gu) ?? [];
          const words =
            text
              .filter((_, i) => i % 3 === 2)
              .join(' ')
              .match(/[TK]/gu) ?? [];
          const begun = drawn.bars[0]!.filter((note) => note.kind === 'note').length;
          expect([notes.length, words.length], `${pattern} ${key} ${width}`).toEqual([begun, begun]);
        }
      }
    }
  });
});
