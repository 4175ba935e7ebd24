/** What the note strip shows of a drill, before it is measured in columns. */
import { describe, expect, it } from 'vitest';
import { type Lettering, type Strip, isLonger, stripOf } from '../../src/music/page/strip.ts';
import { ratio } from '../../src/music/time/ratio.ts';
import { type Asked, drillIn } from './drills.ts';

const strip = (asked: Asked, lettering?: Lettering): Strip => stripOf(drillIn(asked), lettering);
const labels = (asked: Asked, lettering?: Lettering): readonly string[] =>
  strip(asked, lettering).bars.map((bar) => bar.map(({ label }) => label).join(' '));

describe('the note strip', () => {
  it('names each note, the first of a bar with its octave', () => {
    expect(labels({ pattern: '1 2 3 4 | 5 4 3 2', notes: 1, key: 'Bb' })).toEqual(['B♭3 C D E♭', 'F4 E♭ D C']);
    expect(labels({ pattern: '6 7 8 r', notes: 1, key: 'G#', scale: 'harmonic minor' })).toEqual(['E4 Fx G♯ ·']);
    expect(labels({ pattern: '6 7 8 r', notes: 1, key: 'G#', scale: 'harmonic minor' }, 'plain')).toEqual([
      'E4 Fx G# .',
    ]);
  });

  it('gives a leap of more than a fourth its arrow, up and down, over rests and bar lines too', () => {
    expect(labels({ pattern: '1 4 1 5 | 1 5 r 1', notes: 1 })).toEqual(['C4 F C ↑G', 'C4 ↑G · ↓C']);
    expect(labels({ pattern: '1 5 1 r', notes: 1 }, 'plain')).toEqual(['C4 ^G vC .']);
    // The augmented fourth is the first that is more than a fourth: six semitones.
    expect(labels({ pattern: '1 #4 1 4', notes: 1 })).toEqual(['C4 ↑F♯ ↓C F']);
  });

  it('leaves held notes without a name, and the next begun note of a bar has the octave', () => {
    expect(labels({ pattern: '1:1/2 2:1/2~ | 2:1/4 3:1/4 r:1/2' })).toEqual(['C4 D', ' E4 ·']);
    expect(labels({ pattern: 'r | 1 | r:1/2 2:1/2' })).toEqual(['·', 'C4', '· D4']);
    expect(labels({ pattern: '1 | r:1/4 2:3/4' })).toEqual(['C4', '· D4']);
  });

  it('says what each note is: begun, held or a rest, slurred or not, on which beat and where', () => {
    const [bar = []] = strip({ pattern: '1 2 3:1/4~ 3:1/4 r:1/4', way: 'slurred' }).bars;
    expect(bar.map(({ kind, slurred, syllable, beat, from, to }) => [kind, slurred, syllable, beat, from, to])).toEqual(
      [
        ['note', false, 'T', 0, 0, 0.125],
        ['note', true, '', 0, 0.125, 0.25],
        ['note', true, '', 1, 0.25, 0.5],
        ['held', false, '', 2, 0.5, 0.75],
        ['rest', false, '', 3, 0.75, 1],
      ],
    );
    const second = strip({ pattern: '1 | 2:1/4 3:3/4' }).bars[1] ?? [];
    expect(second.map(({ from, to }) => [from, to])).toEqual([
      [0, 0.25],
      [0.25, 1],
    ]);
  });

  it('has the beats of a bar, divided at each, or at the groups where those hold several', () => {
    const divided = (asked: Asked) => strip(asked).beats.map((beat) => beat.divided);
    expect(strip({ pattern: '1', meter: '3/4' }).beats).toEqual([
      { from: 0, to: 1 / 3, divided: true },
      { from: 1 / 3, to: 2 / 3, divided: true },
      { from: 2 / 3, to: 1, divided: true },
    ]);
    expect(divided({ pattern: '1', meter: '7/8', beat: ratio(1, 8) })).toEqual([
      true,
      false,
      true,
      false,
      true,
      false,
      false,
    ]);
    expect(divided({ pattern: '1', meter: '7/8', notes: 2 })).toEqual([true, true, true]);
    expect(divided({ pattern: '1', meter: '6/8', beat: ratio(3, 8) })).toEqual([true, true]);
  });

  it('knows the notes that last longer than the shortest of their bar', () => {
    const [bar = []] = strip({ pattern: '1:1/8 2:1/8 3:1/4 4:1/8t 5:1/8t 6:1/8t r:1/4' }).bars;
    expect(bar.map((note) => isLonger(note, bar))).toEqual([true, true, true, false, false, false, true]);
    const [even = []] = strip({ pattern: '(1 2 3)x4', notes: 3 }).bars;
    expect(even.some((note) => isLonger(note, even))).toBe(false);
  });
});
