import { describe, expect, it } from 'vitest';
import { markingOf, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { DEFAULT_RULE, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { nearestRung, rungsOf } from '../../src/ladder/rule/rungs.ts';
import { waysToOffer, type WayTried } from '../../src/ladder/wall/ways-that-helped.ts';
import { type Wall, wallOf } from '../../src/ladder/wall/wall.ts';
import { waysRound } from '../../src/ladder/wall/ways-round.ts';
import { dateOf } from '../../src/common/days.ts';
import { historyOf, type Played } from './histories.ts';

const LINE = { exercise: 'five-notes', articulation: 'double', key: 'Bb' };
const RUNGS = rungsOf(DEFAULT_RULE);
const LAST = 20_400;
const WALL = RUNGS[32]!;
const [BELOW, UNDER] = [RUNGS[31]!, RUNGS[30]!];

const at = (bpm: number, marks: string): readonly Played[] =>
  marks
    .split('')
    .map((letter) => ({ bpm, mark: ({ c: 'clean', t: 'tense', m: 'missed' } as Record<string, Mark>)[letter]! }));

const FALL = [...at(UNDER, 'ccc'), ...at(BELOW, 'ccc'), ...at(WALL, 'cmm'), ...at(BELOW, 'ctc')];
const GOOD = [...at(UNDER, 'ccc'), ...at(BELOW, 'cctccc'), ...at(WALL, 'cc')];
const REST: readonly Played[] = [];

const wallAfter = (days: readonly (readonly Played[])[], day = LAST): Wall | null =>
  wallOf({
    history: historyOf(LINE, days, LAST),
    rule: { ...DEFAULT_RULE, target: 160 },
    rungs: RUNGS,
    marking: markingOf(0.3),
    prior: weakPrior({ start: 90 }),
    day,
  });

describe('a wall', () => {
  it('is a rung fallen from on three days', () => {
    expect(wallAfter([GOOD, FALL, FALL, GOOD, REST, FALL])).toMatchObject({ bpm: WALL, seen: 'falls' });
    expect(wallAfter([GOOD, FALL, FALL, GOOD, REST, FALL])?.sentence).toBe(
      `${WALL} is a wall: you fell from there on 3 of the last 5 days of practice.`,
    );
  });

  it('is not one bad day, however bad', () => {
    const awful = [...FALL, ...at(WALL, 'mm'), ...at(BELOW, 'mm'), ...at(WALL, 'mmmmmm')];
    expect(wallAfter([GOOD, GOOD, GOOD, GOOD, awful])).toBeNull();
    expect(wallAfter([awful])).toBeNull();
  });

  it('is not three falls in three days running, nor two', () => {
    expect(wallAfter([GOOD, FALL, FALL, FALL])).toBeNull();
    expect(wallAfter([FALL, REST, REST, REST, REST, FALL])).toBeNull();
  });

  it('is not one where it falls from another rung each day', () => {
    const falls = [26, 29, 32].map((i) => [...at(RUNGS[i - 1]!, 'ccc'), ...at(RUNGS[i]!, 'mm')]);
    expect(wallAfter([falls[0]!, REST, falls[1]!, REST, falls[2]!])).toBeNull();
  });

  it('is gone once it was held, and when the line was left alone', () => {
    const held = [...at(BELOW, 'ccc'), ...at(WALL, 'ccc'), ...at(RUNGS[33]!, 'tm')];
    expect(wallAfter([FALL, FALL, REST, REST, FALL, held])).toBeNull();
    expect(wallAfter([FALL, FALL, REST, REST, FALL], LAST + 30)).toBeNull();
  });

  it('is an estimate that weeks of practice do not move', () => {
    const plateau = [...at(UNDER, 'ccctcc'), ...at(BELOW, 'cctcmc'), ...at(WALL, 'tcmt')];
    const weeks = Array.from({ length: 61 }, (_, i) => (i % 3 === 0 ? plateau : REST));
    const wall = wallAfter(weeks);
    expect(wall).toMatchObject({ seen: 'flat' });
    expect(Math.abs(nearestRung(RUNGS, wall!.bpm) - nearestRung(RUNGS, WALL))).toBeLessThanOrEqual(3);
    expect(wallAfter(weeks.slice(-14))).toBeNull();
  });
});

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

describe('what helped', () => {
  const tried = (way: string, day: number, more: Partial<WayTried> = {}): WayTried => ({
    ...LINE,
    way,
    wall: WALL,
    outcome: 'played',
    day: dateOf(day),
    ...more,
  });
  const history = historyOf(LINE, [FALL, REST, at(WALL, 'cmmm'), REST, REST, at(WALL, 'cccct')], LAST);
  const histories = new Map([['five-notes · double · Bb', { ...history, tallies: history.tallies }]]);
  const ways = waysRound({ wall: WALL, rungs: RUNGS, tongued: true, notes: 17, beats: 4 });

  it('is offered first and what did not last; a way left in the middle says nothing', () => {
    const order = waysToOffer(
      ways,
      LINE,
      [tried('bursts', LAST - 1), tried('dotted', LAST - 20), tried('off-beats', LAST - 1, { outcome: 'left' })],
      histories,
    );
    expect(order[0]).toMatchObject({ id: 'bursts', helpedOn: [dateOf(LAST - 1)], tried: 1 });
    expect(order.find(({ id }) => id === 'off-beats')?.helpedOn).toEqual([]);
    const failed = waysToOffer(
      ways,
      LINE,
      [tried('slurred', LAST - 5)],
      new Map([['five-notes · double · Bb', historyOf(LINE, [FALL, REST, at(WALL, 'cmmm')], LAST - 2)]]),
    );
    expect(failed.at(-1)?.id).toBe('slurred');
  });

  it('counts on a sibling too, but less', () => {
    const sibling = { ...LINE, key: 'F' };
    const order = waysToOffer(ways, sibling, [tried('whispered', LAST - 1)], histories);
    expect(order[0]).toMatchObject({ id: 'whispered', helpedOn: [], tried: 0 });
  });
});
