import { describe, expect, it } from 'vitest';
import { waysRound } from '../../src/ladder/wall/ways-round.ts';
import { BELOW, RUNGS, WALL } from './wall-days.ts';

describe('the ways round it', () => {
  const input = { wall: WALL, rungs: RUNGS, tongued: true, notes: 17, beats: 4 };

  it('are all there for a tongued pattern, and can be run: on rungs, never above the wall, so many times', () => {
    const ways = waysRound(input);
    expect(ways.map(({ id }) => id)).toEqual([
      'half-tempo',
      'bursts',
      'dotted',
      'from-front',
      'from-back',
      'slurred',
      'one-note',
      'whispered',
      'off-beats',
    ]);
    for (const { passages, back } of ways) {
      expect(back).toBe(BELOW);
      expect(passages.at(-1)).toEqual({ bpm: BELOW, repetitions: 1, say: 'as written' });
      for (const { bpm, repetitions } of passages) {
        expect(RUNGS).toContain(bpm);
        expect(bpm).toBeLessThanOrEqual(WALL);
        expect(repetitions).toBeGreaterThan(0);
      }
    }
  });

  it('leave out what does not fit: tonguing on a slurred line, counting notes of the player’s own material', () => {
    const ids = waysRound({ ...input, tongued: false, notes: null }).map(({ id }) => id);
    expect(ids).toEqual(['half-tempo', 'bursts', 'dotted', 'off-beats']);
  });

  it.each([4, 5, 9, 17, 64])('add a note at a time to %i notes and never reach all of them', (notes) => {
    const counts = waysRound({ ...input, notes })
      .find(({ id }) => id === 'from-back')!
      .passages.flatMap((passage) => passage.notes?.count ?? []);
    expect(counts[0]).toBe(2);
    expect(counts.length).toBeLessThanOrEqual(8);
    expect(Math.max(...counts)).toBeLessThan(notes);
  });
});
