/**
 * Dotted figures in triple tonguing. That the quickest two notes need two strokes is a fact of the trade: common
 * practice, no source.
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare, ratio, subtract, toNumber } from '../../src/music/time/ratio.ts';
import { drillIn } from './drills.ts';

const IN_SIX = { meter: '6/8', beat: ratio(3, 8), notes: 3 } as const;
const spoken = (pattern: string, way: string): string =>
  drillIn({ ...IN_SIX, pattern, way })
    .notes.map(({ syllable }) => syllable)
    .join('');

describe('a dotted figure in triple tonguing', () => {
  it.each([
    ['the swing of a slow dance', '1:1/8. 2:1/16 3:1/8 1:1/8. 2:1/16 3:1/8 | 1', 'TTKTTKT', 'TTKTTKT'],
    ['the dot on the second', '1:1/8 2:1/8. 3:1/16 1:1/8 2:1/8. 3:1/16 | 1', 'TTKTTKT', 'TTKTTKT'],
    ['the short note first', '1:1/16 2:1/8. 3:1/8 1:1/16 2:1/8. 3:1/8 | 1', 'TKTTKTT', 'TKTTKTT'],
    ['long and short', '1:1/4 2:1/8 1:1/4 2:1/8 | 1', 'TKTKT', 'TKTKT'],
  ])('is told apart: %s', (_, pattern, ttk, tkt) => {
    expect([spoken(pattern, 'triple'), spoken(pattern, 'triple TKT')]).toEqual([ttk, tkt]);
  });

  it('leaves even threes as they are, before a long note too', () => {
    expect(spoken('1 2 3 1 2 3 | 1', 'triple')).toBe('TTKTTKT');
    expect(spoken('1 2 3 1:3/8 | 1', 'triple TKT')).toBe('TKTTT');
  });

  it("is the player's own affair where the way of tonguing is their own set", () => {
    expect(spoken('1:1/8. 2:1/16 3:1/8 1:1/8. 2:1/16 3:1/8 | 1', 'tongue 3')).toBe('TTTTTTT');
  });

  /** Lengths of a beat's notes in sixteenths, of a dotted quarter. */
  const beat = fc.constantFrom(
    [3, 1, 2],
    [2, 3, 1],
    [1, 3, 2],
    [1, 2, 3],
    [4, 2],
    [2, 4],
    [5, 1],
    [1, 5],
    [2, 1, 1, 2],
  );
  const beats = fc.array(beat, { minLength: 2, maxLength: 8 }).filter((all) => all.length % 2 === 0);

  it('never has the same stroke on the quickest two notes of a beat', () => {
    fc.assert(
      fc.property(beats, fc.constantFrom('triple', 'triple TKT'), (all, way) => {
        const pattern = all.flatMap((one, i) => [
          ...one.map((length, k) => `${1 + ((i + k) % 5)}:${length}/16`),
          ...(i % 2 === 1 ? ['|'] : []),
        ]);
        const { notes } = drillIn({ ...IN_SIX, pattern: `${pattern.join(' ')} 1`, way });
        notes.slice(0, -1).forEach((note, i) => {
          const next = notes[i + 1]!;
          const beatOf = (one: typeof note) => 2 * one.bar + one.beat;
          const gaps = notes.flatMap((one, k) => {
            const after = notes[k + 1];
            return after && beatOf(one) === beatOf(note) ? [subtract(after.at, one.at)] : [];
          });
          const gap = subtract(next.at, note.at);
          const isQuickest = gaps.every((other) => compare(gap, other) <= 0) && gaps.some((o) => compare(gap, o) < 0);
          if (isQuickest) expect(note.stroke, `${pattern.join(' ')} at ${toNumber(note.at)}`).not.toBe(next.stroke);
        });
      }),
      { numRuns: 300 },
    );
  });
});
