import { describe, expect, it } from 'vitest';
import { dateOf } from '../../src/common/days.ts';
import { lineName } from '../../src/ladder/line.ts';
import type { LineHistory, Tally } from '../../src/ladder/speed/line-history.ts';
import { waysRound } from '../../src/ladder/wall/ways-round.ts';
import { type OfferedWay, type WayTried, waysToOffer } from '../../src/ladder/wall/ways-that-helped.ts';
import { historyOf } from './histories.ts';
import { BELOW, FALL, LAST, LINE, REST, RUNGS, WALL, at } from './wall-days.ts';

const tried = (way: string, day: number, more: Partial<WayTried> = {}): WayTried => ({
  ...LINE,
  way,
  wall: WALL,
  outcome: 'played',
  day: dateOf(day),
  ...more,
});

const waysHere = () => waysRound({ wall: WALL, rungs: RUNGS, tongued: true, notes: 17, beats: 4 });

const named = (...histories: readonly LineHistory[]): ReadonlyMap<string, LineHistory> =>
  new Map(histories.map((history) => [lineName(history.line), history]));

const after = (line: typeof LINE): LineHistory => historyOf(line, [at(WALL, 'cccc')], LAST);

const helpedSince = () => named(historyOf(LINE, [FALL, REST, at(WALL, 'cmmm'), REST, REST, at(WALL, 'cccct')], LAST));

describe('what helped', () => {
  it('is offered first and what did not last; a way left in the middle says nothing', () => {
    const order = waysToOffer(
      waysHere(),
      LINE,
      [tried('bursts', LAST - 1), tried('dotted', LAST - 20), tried('off-beats', LAST - 1, { outcome: 'left' })],
      helpedSince(),
    );
    expect(order[0]).toMatchObject({ id: 'bursts', helpedOn: [dateOf(LAST - 1)], tried: 1 });
    expect(order.find(({ id }) => id === 'off-beats')?.helpedOn).toEqual([]);
    const failed = waysToOffer(
      waysHere(),
      LINE,
      [tried('slurred', LAST - 5)],
      named(historyOf(LINE, [FALL, REST, at(WALL, 'cmmm')], LAST - 2)),
    );
    expect(failed.at(-1)?.id).toBe('slurred');
  });

  it('counts on a sibling too, but less', () => {
    const sibling = { ...LINE, key: 'F' };
    const order = waysToOffer(waysHere(), sibling, [tried('whispered', LAST - 1)], helpedSince());
    expect(order[0]).toMatchObject({ id: 'whispered', helpedOn: [], tried: 0 });
  });

  it('counts most on the line itself, then on its exercise, then on any other', () => {
    const [sibling, stranger] = [
      { ...LINE, key: 'F' },
      { exercise: 'thirds', articulation: 'slurred', key: 'F' },
    ];
    const order = waysToOffer(
      waysHere(),
      LINE,
      [
        tried('off-beats', LAST - 1),
        tried('whispered', LAST - 1, sibling),
        tried('one-note', LAST - 1, stranger),
        tried('slurred', LAST - 1, { key: 'never played' }),
      ],
      named(after(LINE), after(sibling), after(stranger)),
    );
    expect(order.map(({ id }) => id)).toEqual([
      'off-beats',
      'whispered',
      'one-note',
      'half-tempo',
      'bursts',
      'dotted',
      'from-front',
      'from-back',
      'slurred',
    ]);
  });

  it('puts what is still open a little behind what was never tried', () => {
    const history = named(historyOf(LINE, [FALL], LAST));
    const ids = (...some: readonly WayTried[]): readonly string[] =>
      waysToOffer(waysHere(), LINE, some, history).map(({ id }) => id);
    expect(ids(tried('half-tempo', LAST)).at(-1)).toBe('half-tempo');
    expect(ids(tried('bursts', LAST - 9, { outcome: 'left' })).at(-1)).toBe('bursts');
  });
});

describe('whether a way helped', () => {
  const DAY = LAST - 30;
  const tally = (later: number, bpm: number, clean: number, others = 0): Tally => ({
    day: dateOf(DAY + later),
    bpm,
    clean,
    tense: others - Math.floor(others / 2),
    missed: Math.floor(others / 2),
  });
  const bursts = (...tallies: readonly Tally[]): OfferedWay | undefined => {
    const history: LineHistory = { ...historyOf(LINE, [], LAST), tallies };
    return waysToOffer(waysHere(), LINE, [tried('bursts', DAY)], named(history)).find(({ id }) => id === 'bursts');
  };

  it.each<[string, readonly Tally[], boolean]>([
    ['four clean at the wall the day after', [tally(1, WALL, 4)], true],
    ['three are too few', [tally(1, WALL, 3)], false],
    ['on the same day they say nothing', [tally(0, WALL, 4)], false],
    ['before it they say nothing', [tally(-1, WALL, 4)], false],
    ['two weeks later they still do', [tally(14, WALL, 4)], true],
    ['more than two weeks later they do not', [tally(15, WALL, 4)], false],
    ['below the wall they do not', [tally(1, BELOW, 4)], false],
    ['above it they do', [tally(1, RUNGS[33]!, 4)], true],
    ['two of three clean are enough', [tally(1, WALL, 4, 2)], true],
    ['three of five are not', [tally(1, WALL, 3, 2)], false],
    ['days add up', [tally(1, WALL, 2), tally(2, RUNGS[33]!, 2)], true],
    ['bad days count too', [tally(1, WALL, 4), tally(2, WALL, 0, 3)], false],
  ])('%s', (_, tallies, helped) => {
    expect(bursts(...tallies)).toMatchObject({ tried: 1, helpedOn: helped ? [dateOf(DAY)] : [] });
  });
});
