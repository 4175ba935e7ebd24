/** Cells out of the hat, ways of tonguing in turn, more at the ends, this week's keys, pairs of fingerings. */
import { describe, expect, it } from 'vitest';
import { KEY_ORDERS } from '../../src/plan/rotation/key-order.ts';
import { turnAgain } from '../../src/plan/rotation/next-turn.ts';
import { asked, crossed, next, playOn, withBest } from './turns-asked.ts';

describe('cells out of the hat', () => {
  const hat = { order: 'from the hat' as const, change: 'repetition' as const };
  const keys = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
  const articulations = ['slurred', 'single', 'double', 'triple'];

  it('are 48 in 48 repetitions, over any number of days, each once before one comes again', () => {
    for (let seed = 0; seed < 20; seed += 1) {
      const names = playOn(96, { rotation: hat, keys, articulations, seed });
      expect(names.slice(0, 48).toSorted()).toEqual(crossed(keys, articulations).toSorted());
      expect(names.slice(48).toSorted()).toEqual(crossed(keys, articulations).toSorted());
      expect(names[48]).not.toBe(names[47]);
    }
  });

  it('come so many times in a row', () => {
    const names = playOn(96, { rotation: { ...hat, repetitions: 2 }, keys, articulations });
    for (let i = 0; i < 96; i += 2) expect(names[i]).toBe(names[i + 1]);
    expect(new Set(names).size).toBe(48);
  });

  it('go on after a cell that was chosen, which does not come again in the round', () => {
    const came = ['G · triple', 'A · double'];
    const names = playOn(46, { rotation: hat, keys, articulations, came });
    expect([...came, ...names].toSorted()).toEqual(crossed(keys, articulations).toSorted());
  });

  it('are one cell again and again where there is one', () => {
    const one = { rotation: hat, keys: ['C'], articulations: ['slurred'] };
    expect(next({ ...one, came: ['C · slurred'] })).toMatchObject({ key: 'C', articulation: 'slurred', name: null });
  });
});

describe('ways of tonguing in turn', () => {
  const inTurn = { articulations: 'in turn' as const };

  it('come one after the other in each key, in the order in which they are written', () => {
    const setup = { articulations: ['slurred', 'double'], rotation: { ...inTurn, order: 'fifths' as const } };
    expect(playOn(7, setup)).toEqual([
      'C · slurred',
      'C · double',
      'Bb · slurred',
      'Bb · double',
      'F · slurred',
      'F · double',
      'C · slurred',
    ]);
  });

  it.each(KEY_ORDERS)('stay in a key until all have come: %s', (order) => {
    const names = playOn(9, { rotation: { ...inTurn, order } });
    expect(new Set(names).size).toBe(9);
    for (let i = 0; i < 9; i += 3) {
      expect(new Set(names.slice(i, i + 3).map((name) => name.split(' ')[0])).size).toBe(1);
      expect(names.slice(i, i + 3).map((name) => name.split(' · ')[1])).toEqual(['slurred', 'single', 'double']);
    }
  });

  it('are told together, and only there', () => {
    expect(next({ rotation: inTurn }).together).toEqual(['slurred', 'single', 'double']);
    const narrowed = { articulations: ['slurred', 'double'] };
    expect(next({ rotation: inTurn, narrowed }).together).toEqual(['slurred', 'double']);
    expect(next({}).together).toBeUndefined();
  });

  it('go on in the key of a block that is gone on with', () => {
    const setup = { rotation: inTurn, came: ['F · slurred', 'F · single', 'F · double'] };
    expect(turnAgain(asked(setup))).toMatchObject({ key: 'F', articulation: 'slurred' });
    expect(turnAgain(asked({ ...setup, laid: 'Bb · slurred' }))).toMatchObject({ key: 'Bb', name: 'Bb · slurred' });
  });
});

describe('more at the ends', () => {
  const rotation = { order: 'chromatic' as const, ends: { keys: 2, times: 3 } };
  const keys = ['G', 'Ab', 'A', 'Bb', 'B', 'C'];
  const keysOf = (names: readonly string[]): string => names.map((name) => name.split(' ')[0]).join(' ');

  it('comes so many times in the first and last keys of the order, once through between', () => {
    const names = playOn(15, { rotation, keys, articulations: ['single'] });
    expect(keysOf(names)).toBe('G G G Ab Ab Ab A Bb B B B C C C G');
  });

  it('takes every key where there is no middle, and the most that anything asks for', () => {
    const both = playOn(4, { rotation, keys: ['G', 'Ab'], articulations: ['single'] });
    expect(keysOf(both)).toBe('G G G Ab');
    const weak = [
      ...['G', 'Ab', 'A', 'Bb', 'B'].map((key) => withBest('single', key, 100)),
      withBest('single', 'C', 60),
    ];
    const names = playOn(18, {
      rotation: { ...rotation, weakTimes: 5 },
      keys,
      articulations: ['single'],
      histories: weak,
    });
    expect(keysOf(names.slice(-7))).toBe('C C C C C G G');
  });
});

describe("this week's keys", () => {
  const keys = ['C', 'F', 'Bb', 'Eb', 'Ab', 'Db'];
  const inWeek = (today: string) => playOn(4, { rotation: { weekKeys: 3 }, keys, articulations: ['slurred'], today });

  // Weeks begin on Monday (ISO 8601); 23 November 2026 is one.
  it('are the same from Monday to Sunday, others the week after, all of them in two weeks', () => {
    expect(inWeek('2026-11-23')).toEqual(inWeek('2026-11-29'));
    expect(inWeek('2026-11-22')).not.toEqual(inWeek('2026-11-23'));
    expect(
      inWeek('2026-11-30')
        .slice(0, 3)
        .some((name) => inWeek('2026-11-23').includes(name)),
    ).toBe(false);
    expect(inWeek('2026-12-07')).toEqual(inWeek('2026-11-23'));
  });

  it('do not narrow what a block narrows, nor more keys than there are', () => {
    const rotation = { weekKeys: 9 };
    expect(new Set(playOn(6, { rotation, keys, articulations: ['slurred'] })).size).toBe(6);
    expect(next({ rotation: { weekKeys: 1 }, keys, narrowed: { keys: ['Db'] } }).key).toBe('Db');
  });
});

describe('pairs of fingerings', () => {
  const pair = ['C · slurred', 'C · slurred · alternate'];

  it.each(
    KEY_ORDERS.flatMap((order) => (['repetition', 'rung', 'block'] as const).map((change) => [order, change] as const)),
  )('come as ordinary, then alternate: %s, with the %s', (order, change) => {
    const names = playOn(20, { rotation: { order, change, fingerings: true } });
    names.forEach((name, i) => {
      if (i + 1 < names.length && !name.endsWith('alternate')) expect(names[i + 1]).toBe(`${name} · alternate`);
    });
    expect(names.filter((name) => pair.includes(name)).length).toBeGreaterThan(0);
  });
});
