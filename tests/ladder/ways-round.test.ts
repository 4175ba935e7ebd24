import { describe, expect, it } from 'vitest';
import { type Passage, type Way, type WayInput, waysRound } from '../../src/ladder/wall/ways-round.ts';
import { BELOW, RUNGS, WALL } from './wall-days.ts';

/** A passage as a player would read it, with what the program is told besides. */
const line = ({ bpm, repetitions, say, ...more }: Passage): string =>
  [`${repetitions} x at ${bpm}: ${say}`, ...(Object.keys(more).length > 0 ? [JSON.stringify(more)] : [])].join(' ');

const page = ({ title, why, passages }: Way): readonly string[] => [`${title}. ${why}`, ...passages.map(line)];

const input = { wall: WALL, rungs: RUNGS, tongued: true, notes: 17, beats: 4 };

const ids = (more: Partial<WayInput>): readonly string[] => waysRound({ ...input, ...more }).map(({ id }) => id);

describe('the ways round a wall', () => {
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

  // Common practice, no source: the wording is ours. Rungs of five beats and a wall at 100 keep the sums plain.
  it('read, at a wall of 100 on rungs of five, for nine notes in common time', () => {
    const rungs = Array.from({ length: 20 }, (_, i) => 40 + 5 * i);
    const ways = waysRound({ wall: 100, rungs, tongued: true, notes: 9, beats: 4 });
    expect(ways.flatMap(page)).toEqual([
      'Half tempo and back. Slow enough to notice what the fast one hides, then back in steps.',
      '2 x at 50: half tempo, at ease',
      '1 x at 60: 60 % of the tempo',
      '1 x at 70: 70 % of the tempo',
      '1 x at 80: 80 % of the tempo',
      '1 x at 90: 90 % of the tempo',
      '1 x at 95: as written',
      'Short bursts. A little at full speed with a rest after it: speed without the strain of going on.',
      '2 x at 100: 1 beat at speed, as long a rest {"burst":{"beats":1,"rest":1}}',
      '2 x at 100: 2 beats at speed, as long a rest {"burst":{"beats":2,"rest":2}}',
      '2 x at 100: 4 beats at speed, as long a rest {"burst":{"beats":4,"rest":4}}',
      '1 x at 95: as written',
      'Dotted both ways. Each note gets its turn to be the quick one; uneven places show.',
      '3 x at 75: long, short {"rhythm":"long-short"}',
      '3 x at 75: short, long {"rhythm":"short-long"}',
      '1 x at 95: as written',
      'One note more, from the front. It is never more than one new note; where it breaks is the place.',
      ...[2, 3, 4, 5, 6, 7, 8].map(
        (count) => `2 x at 95: the first ${count} notes {"notes":{"from":"front","count":${count}}}`,
      ),
      '1 x at 95: as written',
      'One note more, from the back. You always play towards what you know already.',
      ...[2, 3, 4, 5, 6, 7, 8].map(
        (count) => `2 x at 95: the last ${count} notes {"notes":{"from":"back","count":${count}}}`,
      ),
      '1 x at 95: as written',
      'Slurred only. Without the tongue: are air and fingers there?',
      '2 x at 95: all slurred {"playing":"slurred"}',
      '2 x at 100: all slurred {"playing":"slurred"}',
      '1 x at 95: as written',
      'Tongue on one note. Without the fingers: is the tongue there?',
      '2 x at 95: all on the first note {"playing":"one-note"}',
      '2 x at 100: all on the first note {"playing":"one-note"}',
      '1 x at 95: as written',
      'Without a tone. Tongue and fingers keep each other company at no cost, and the lip has a rest.',
      '2 x at 95: syllables under the breath, fingers moving {"playing":"whispered"}',
      '2 x at 100: syllables under the breath, fingers moving {"playing":"whispered"}',
      '1 x at 95: as written',
      'Click on the off-beats. The beat has to come from you; a pulse that leans on the click shows.',
      '2 x at 80: the click is the off-beat {"click":"off-beats"}',
      '2 x at 95: the click is the off-beat {"click":"off-beats"}',
      '1 x at 95: as written',
    ]);
  });

  it.each([
    [1, [1, 2]],
    [2, [1, 2]],
    [3, [1, 2, 3]],
  ])('have bursts of one beat, two and a bar, each once: %i beats in a bar', (beats, bursts) => {
    const [, ...way] = waysRound({ ...input, beats }).filter(({ id }) => id === 'half-tempo' || id === 'bursts');
    expect(way[0]?.passages.flatMap(({ burst }) => burst?.beats ?? [])).toEqual(bursts);
  });

  it('leave out what does not fit: tonguing on a slurred line, counting notes of the player’s own material', () => {
    expect(ids({ tongued: false, notes: null })).toEqual(['half-tempo', 'bursts', 'dotted', 'breathed', 'off-beats']);
    expect(ids({ notes: null })).not.toContain('from-front');
    expect(ids({ notes: 3 })).not.toContain('from-back');
    expect(ids({ notes: 4 })).toContain('from-back');
    expect(ids({ tongued: false })).toEqual([
      'half-tempo',
      'bursts',
      'dotted',
      'from-front',
      'from-back',
      'breathed',
      'off-beats',
    ]);
  });

  it.each([4, 5, 9, 17, 64])('add a note at a time to %i notes and never reach all of them', (notes) => {
    const counts = waysRound({ ...input, notes })
      .find(({ id }) => id === 'from-back')!
      .passages.flatMap((passage) => passage.notes?.count ?? []);
    expect(counts[0]).toBe(2);
    expect(counts.length).toBeLessThanOrEqual(8);
    expect(Math.max(...counts)).toBeLessThan(notes);
  });

  it.each([
    [4, [2, 3]],
    [10, [2, 3, 4, 5, 6, 7, 8, 9]],
    [11, [2, 4, 6, 8, 10]],
    [18, [2, 4, 6, 8, 10, 12, 14, 16]],
    [19, [2, 5, 8, 11, 14, 17]],
  ])('add so many notes to %i that eight steps are enough', (notes, steps) => {
    const way = waysRound({ ...input, notes }).find(({ id }) => id === 'from-front');
    expect(way?.passages.flatMap((passage) => passage.notes?.count ?? [])).toEqual(steps);
  });
});
