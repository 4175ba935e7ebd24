import { describe, expect, it } from 'vitest';
import { dateOf } from '../../src/common/days.ts';
import { waysRound } from '../../src/ladder/wall/ways-round.ts';
import { waysToOffer, type WayTried } from '../../src/ladder/wall/ways-that-helped.ts';
import { historyOf } from './histories.ts';
import { FALL, LAST, LINE, REST, RUNGS, WALL, at } from './wall-days.ts';

const tried = (way: string, day: number, more: Partial<WayTried> = {}): WayTried => ({
  ...LINE,
  way,
  wall: WALL,
  outcome: 'played',
  day: dateOf(day),
  ...more,
});

describe('what helped', () => {
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
