/** What the spans of a cycle sound like: how loud, how slow, and in which octave the drone lies. */
import { describe, expect, it } from 'vitest';
import { waysRound } from '../../src/ladder/wall/ways-round.ts';
import type { Span } from '../../src/music/sound/sound-commands.ts';
import { instrumentNamed } from '../../src/music/pitch/instruments.ts';
import { prepareFor } from '../../src/practice/line/line-notes.ts';
import { beginWay } from '../../src/practice/line/way-being-played.ts';
import { whatMarkDid } from '../../src/practice/line/what-happened.ts';
import { writer } from '../journal/entries.ts';
import { EXERCISE, type Rehearsal, rehearse } from './rehearsal.ts';

const begun = (one: Rehearsal): readonly Span[] => {
  one.press('start-pause');
  return one.state().chain;
};

describe('the click', () => {
  it('is softer in the bar to breathe, and softest while it waits for the mark, but still there', () => {
    const gains = Object.fromEntries(begun(rehearse()).map(({ role, gain }) => [role, gain]));
    const { breath = 0, wait = 0 } = gains;
    expect([gains['count-in'], gains['repetition']]).toEqual([1, 1]);
    expect(breath).toBeLessThan(1);
    expect(wait).toBeLessThan(breath);
    expect(wait).toBeGreaterThan(0.1);
  });

  it('has up to eight pulses of vibrato to a beat', () => {
    for (const [pulses, struck] of [
      [8, 8],
      [9, 1],
    ] as const) {
      const line = { exercise: 'five-notes', articulation: `pulses ${pulses}`, key: 'C' };
      const repetition = begun(rehearse({ opening: { line } })).find(({ role }) => role === 'repetition');
      expect(repetition?.click.subdivision).toBe(struck);
    }
  });
});

describe('a slow repetition', () => {
  const tempos = (one: Rehearsal) =>
    begun(one).flatMap(({ role, tempo }) => (role === 'repetition' ? [tempo.bpm] : []));

  it('is in whole beats a minute, and never slower than the slowest tempo there is', () => {
    const alternate = (start: number, slowShare: number) =>
      tempos(rehearse({ rule: { order: 'alternate', floor: 10, start, slowShare } }));
    expect(alternate(101, 0.5)).toEqual([51, 101]);
    expect(alternate(20, 0.2)).toEqual([10, 20]);
  });

  it('does not come on a way round a wall, which has tempos of its own', () => {
    const one = rehearse({ rule: { order: 'alternate', start: 100 } });
    const [way] = waysRound({ wall: 104, rungs: one.rungs(), tongued: true, notes: 9, beats: 4 });
    one.apply((practice) => beginWay(practice, way!, 104));
    expect(tempos(one)).toEqual([way!.passages[0]!.bpm]);
  });
});

describe('the drone of a low instrument', () => {
  // A baritone saxophone sounds an octave and a major sixth (21 semitones) lower than written: handbook, from memory.
  it('lies below what is easy on it or with its lowest note: for D4, which sounds as F2 (41), on E flat 2', () => {
    const low = instrumentNamed('baritone saxophone')!;
    expect(low.transposition).toBe(-21);
    const { drone } = prepareFor(low, 440)(EXERCISE, { exercise: EXERCISE.id, key: 'C', articulation: 'slurred' });
    expect(drone.tonic).toBe(39);
  });
});

describe('a mark of a repetition at another tempo than the ladder stands on', () => {
  it('does not lengthen the ladder’s run', () => {
    const before = { bpm: 80, cleanRun: 2, missedRun: 1, best: null };
    const told = (mark: 'clean' | 'missed', bpm: number) =>
      whatMarkDid(before, writer().mark(mark, bpm, bpm, { cleanUp: 9, missedDown: 9 }), 'breathing').run;
    expect([told('clean', 80), told('clean', 83)]).toEqual([3, 1]);
    expect([told('missed', 80), told('missed', 83)]).toEqual([2, 1]);
  });
});
