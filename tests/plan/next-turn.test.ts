/** Every key, every way of tonguing and every fingering comes round: what a `rotate` promises. */
import { describe, expect, it } from 'vitest';
import { KEY_ORDERS } from '../../src/plan/rotation/key-order.ts';
import { PLAIN_ROTATION } from '../../src/plan/rotation/key-rotation.ts';
import { isTurnOver, nameByHand, nextTurn, turnAgain } from '../../src/plan/rotation/next-turn.ts';
import { type Setup, asked, crossed, history, marked, next, playOn, withBest } from './turns-asked.ts';

const unasked = () => {
  throw new Error('asked');
};
const exerciseOf = (setup: Setup) => asked(setup).exercise;
const times = (name: string): readonly string[] => [name, name, name];

describe('what comes next, block after block', () => {
  it('is the next key, and after a round of them the next way of tonguing', () => {
    expect(playOn(10, { rotation: { order: 'fourths' } })).toEqual([
      'C · slurred',
      'F · slurred',
      'Bb · slurred',
      'C · single',
      'F · single',
      'Bb · single',
      'C · double',
      'F · double',
      'Bb · double',
      'C · slurred',
    ]);
  });

  it('leaves a way of tonguing that was played for many days as soon as its keys are through', () => {
    // A journal of a time when rotating never left the first articulation.
    const came = Array.from({ length: 19 }, (_, i) => `${['C', 'F', 'Bb'][i % 3]} · slurred`);
    expect(playOn(6, { came })).toEqual([
      'F · single',
      'Bb · single',
      'C · single',
      'F · double',
      'Bb · double',
      'C · double',
    ]);
  });

  it('goes on from a line that was chosen by hand, and comes back to what was left open', () => {
    const came = ['C · slurred', 'Bb · double'];
    expect(playOn(7, { came })).toEqual([
      'C · double',
      'F · double',
      'Bb · slurred',
      'F · slurred',
      'Bb · single',
      'C · single',
      'F · single',
    ]);
  });

  it('goes on past the end of a round that was begun in the middle', () => {
    const setup = { articulations: ['slurred'], came: ['F · slurred', 'Bb · slurred', 'C · slurred'] };
    expect(playOn(4, setup)).toEqual(['F · slurred', 'Bb · slurred', 'C · slurred', 'F · slurred']);
  });

  it('is told with its line, on the ladder that the keys share', () => {
    expect(next({ rotation: { ladder: 'shared' }, came: ['C · slurred'] })).toEqual({
      key: 'F',
      articulation: 'slurred',
      fingering: 'ordinary',
      line: { exercise: 'five-notes', articulation: 'slurred', key: 'all keys' },
      name: 'F · slurred',
    });
    expect(next({}).line.key).toBe('C');
  });

  it('comes in pairs of ordinary and alternate fingering', () => {
    const setup = { rotation: { fingerings: true }, keys: ['C', 'F'], articulations: ['slurred', 'single'] };
    expect(playOn(8, setup)).toEqual([
      'C · slurred',
      'C · slurred · alternate',
      'F · slurred',
      'F · slurred · alternate',
      'C · single',
      'C · single · alternate',
      'F · single',
      'F · single · alternate',
    ]);
  });

  it('follows an ordinary fingering with the alternate one, wherever it was begun', () => {
    for (const order of KEY_ORDERS)
      expect(next({ rotation: { fingerings: true, order }, came: ['Bb · single'] }).name).toBe(
        'Bb · single · alternate',
      );
  });

  it('goes to and fro between the keys of a pair', () => {
    const setup = {
      keys: ['C', 'Db', 'D'],
      articulations: ['slurred'],
      rotation: { order: 'semitone pairs' as const },
    };
    expect(playOn(6, setup).map((name) => name.split(' ')[0])).toEqual(['C', 'Db', 'C', 'Db', 'D', 'C']);
  });

  it('comes twice in a weak key and at the edge of the range', () => {
    const histories = [withBest('slurred', 'C', 120), withBest('slurred', 'F', 90), withBest('slurred', 'Bb', 118)];
    const setup = { articulations: ['slurred'], histories };
    expect(playOn(4, { ...setup, rotation: { weakTimes: 2 } })).toEqual([
      'C · slurred',
      'F · slurred',
      'F · slurred',
      'Bb · slurred',
    ]);
    expect(playOn(6, { ...setup, edges: ['Bb'], rotation: { weakTimes: 2, edgeTimes: 3 } }).slice(-3)).toEqual([
      'Bb · slurred',
      'Bb · slurred',
      'Bb · slurred',
    ]);
    expect(playOn(4, { ...setup, edges: ['Bb'] }).at(-1)).toBe('C · slurred');
  });

  it('takes the larger of the two where a weak key lies at the edge', () => {
    const histories = [withBest('slurred', 'C', 120), withBest('slurred', 'F', 90), withBest('slurred', 'Bb', 118)];
    const rotation = { weakTimes: 2, edgeTimes: 3 };
    const names = playOn(5, { articulations: ['slurred'], histories, edges: ['F'], rotation });
    expect(names.filter((name) => name === 'F · slurred')).toHaveLength(3);
  });

  it('holds a key weak in the way of tonguing in which it is', () => {
    const histories = [
      ...['C', 'F', 'Bb'].map((key) => withBest('slurred', key, 120)),
      ...['C', 'F'].map((key) => withBest('double', key, 90)),
      withBest('double', 'Bb', 60),
    ];
    const setup = { histories, articulations: ['slurred', 'double'], rotation: { weakTimes: 2 } };
    expect(playOn(8, setup).slice(-5)).toEqual([
      'C · double',
      'F · double',
      'Bb · double',
      'Bb · double',
      'C · slurred',
    ]);
  });

  it('compares keys of a shared ladder by their clean share', () => {
    const keys = {
      C: { clean: 9, tense: 1, missed: 0 },
      F: { clean: 9, tense: 1, missed: 0 },
      Bb: { clean: 5, tense: 0, missed: 5 },
    };
    const histories = [history('slurred', 'all keys', { keys })];
    const rotation = { weakTimes: 2, ladder: 'shared' as const };
    expect(playOn(4, { histories, articulations: ['slurred'], rotation }).slice(-2)).toEqual([
      'Bb · slurred',
      'Bb · slurred',
    ]);
  });

  it('is each key once where time is short', () => {
    const histories = [withBest('slurred', 'C', 120), withBest('slurred', 'F', 90)];
    const rotation = { weakTimes: 3, fingerings: true };
    const setup = { histories, rotation, narrowed: { once: true }, articulations: ['slurred'] };
    expect(playOn(4, setup)).toEqual(['C · slurred', 'F · slurred', 'Bb · slurred', 'C · slurred']);
  });

  it('keeps to what the block plays', () => {
    const narrowed = { keys: ['Bb', 'F'], articulations: ['double'] };
    expect(playOn(3, { narrowed, came: ['C · slurred', 'C · double'] })).toEqual([
      'Bb · double',
      'F · double',
      'Bb · double',
    ]);
  });

  it('asks nobody for the edges, and counts no other exercise, where neither matters', () => {
    const asking = asked();
    expect(nextTurn({ ...asking, isEdge: unasked })?.key).toBe('C');
    const other = { ...marked('slurred', 'C', 5), line: { exercise: 'thirds', articulation: 'slurred', key: 'C' } };
    expect(next({ rotation: { change: 'repetition' }, histories: [other] }).key).toBe('C');
  });

  it('is nothing without a key', () => {
    for (const order of KEY_ORDERS)
      for (const change of ['repetition', 'rung', 'block'] as const)
        expect(nextTurn(asked({ keys: [], rotation: { order, change } }))).toBeNull();
  });
});

describe('what is drawn', () => {
  it('is a key of this way of tonguing first, without repetition', () => {
    const names = playOn(9, { rotation: { order: 'drawn' } });
    expect(names.map((name) => name.split(' · ')[1])).toEqual([
      ...times('slurred'),
      ...times('single'),
      ...times('double'),
    ]);
    expect(new Set(names).size).toBe(9);
  });

  it('differs from seed to seed and is the same from the same', () => {
    const orders = Array.from({ length: 20 }, (_, seed) => playOn(9, { rotation: null, seed }).join());
    expect(new Set(orders).size).toBeGreaterThan(15);
    expect(playOn(9, { rotation: null, seed: 3 }).join()).toBe(orders[3]);
  });

  it.each([null, { order: 'key and articulation' as const }])(
    'is key and articulation together, and also where the file says nothing: %j',
    (rotation) => {
      const names = playOn(9, { rotation });
      expect(names.toSorted()).toEqual(crossed(['C', 'F', 'Bb'], ['slurred', 'single', 'double']).toSorted());
      const tonguings = names.map((name) => name.split(' · ')[1]);
      expect(tonguings).not.toEqual(tonguings.toSorted());
    },
  );

  it('is not the last pair again while there is another', () => {
    for (let seed = 0; seed < 30; seed += 1) {
      const names = playOn(40, { rotation: null, seed });
      names.forEach((name, i) => expect(name).not.toBe(names[i + 1]));
    }
  });

  it('takes a key that is added later into the round, once', () => {
    const came = playOn(18, { rotation: null });
    const names = playOn(12, { rotation: null, came, keys: ['C', 'F', 'Bb', 'D'] });
    expect(names.slice(0, 3).toSorted()).toEqual(['D · double', 'D · single', 'D · slurred']);
    expect(new Set(names.slice(3)).size).toBe(9);
  });
});

describe('what comes next, repetition after repetition', () => {
  const rotation = { change: 'repetition' as const };

  it('is remembered by its name, so that a turn chosen by hand counts and nothing else moves the order', () => {
    expect(playOn(9, { rotation })).toEqual(crossed(['C', 'F', 'Bb'], ['slurred', 'single', 'double']));
    expect(next({ rotation })).toMatchObject({ key: 'C', name: 'C · slurred' });
    const histories = [marked('slurred', 'C', 1), marked('double', 'F', 2), marked('single', 'C', 1)];
    expect(next({ rotation, histories })).toMatchObject({ key: 'C', articulation: 'slurred' });
    expect(next({ rotation, came: ['C · slurred', 'Bb · double'] })).toMatchObject({
      key: 'C',
      articulation: 'double',
    });
  });

  it('is remembered where nothing is marked, too', () => {
    const { exercise, ...rest } = asked({ rotation, came: ['C · slurred'] });
    const due = nextTurn({ ...rest, exercise: { ...exercise, work: 'breaths' } });
    expect(due).toMatchObject({ key: 'F', name: 'F · slurred' });
    expect(nameByHand({ ...exercise, work: 'clock' }, 'Bb', 'single')).toBe('Bb · single');
  });

  it('has both fingerings', () => {
    const names = playOn(3, { rotation: { ...rotation, fingerings: true } });
    expect(names).toEqual(['C · slurred', 'C · slurred · alternate', 'F · slurred']);
  });

  it('is drawn anew each round, all of it', () => {
    const names = playOn(18, { rotation: { ...rotation, order: 'key and articulation' } });
    expect(new Set(names.slice(0, 9)).size).toBe(9);
    expect(new Set(names.slice(9)).size).toBe(9);
    expect(names.slice(0, 9)).not.toEqual(names.slice(9));
  });

  it('stays for so many repetitions, where they are marked', () => {
    const setup = { rotation: { ...rotation, repetitions: 3 }, articulations: ['slurred'] };
    expect(playOn(7, setup).map((name) => name.split(' ')[0])).toEqual(['C', 'C', 'C', 'F', 'F', 'F', 'Bb']);
    expect(playOn(3, { ...setup, work: 'clock' as const }).map((name) => name.split(' ')[0])).toEqual(['C', 'F', 'Bb']);
  });
});

describe('a block that is gone on with', () => {
  it('gets the same key and the same fingering again', () => {
    const came = ['C · slurred', 'C · slurred · alternate'];
    expect(turnAgain(asked({ rotation: { fingerings: true }, came }))).toEqual({
      key: 'C',
      articulation: 'slurred',
      fingering: 'alternate',
      line: { exercise: 'five-notes', articulation: 'slurred', key: 'C' },
      name: null,
    });
  });

  it('gets the alternate fingering again even if what is left of it is short', () => {
    const came = ['F · single · alternate'];
    const setup = { rotation: { fingerings: true, ladder: 'shared' as const }, narrowed: { once: true }, came };
    expect(turnAgain(asked(setup))).toMatchObject({ fingering: 'alternate', line: { key: 'all keys' } });
  });

  it.each<readonly [string, Setup, string]>([
    ['nothing was kept', {}, 'C · slurred'],
    ['what was kept is there no more', { came: ['Db · slurred'] }, 'C · slurred'],
    ['the file has no alternate fingerings any more', { came: ['C · slurred · alternate'] }, 'C · slurred'],
    ['the block plays other keys now', { came: ['C · slurred'], narrowed: { keys: ['F'] } }, 'F · slurred'],
  ])('gets the next one where %s', (_, setup, name) => {
    expect(turnAgain(asked(setup))?.name).toBe(name);
  });

  it('gets the one that was due where each repetition changes the key, or what was laid on the stand by hand', () => {
    const setup = { rotation: { change: 'repetition' as const }, came: ['C · slurred'] };
    expect(turnAgain(asked(setup))).toMatchObject({ key: 'F', name: 'F · slurred' });
    const byHand = { key: 'Bb', articulation: 'double', name: 'Bb · double' };
    expect(turnAgain(asked({ ...setup, laid: 'Bb · double' }))).toMatchObject(byHand);
    expect(turnAgain(asked({ came: ['C · slurred'], laid: 'Bb · double' }))).toMatchObject(byHand);
    expect(turnAgain(asked({ ...setup, laid: 'gone · double' }))).toMatchObject({ key: 'F' });
  });
});

describe('a line that was chosen by hand', () => {
  it('counts as come, with ordinary fingerings', () => {
    expect(nameByHand(exerciseOf({}), 'Bb', 'double')).toBe('Bb · double');
    expect(nameByHand(exerciseOf({ rotation: null }), 'Bb', 'double')).toBe('Bb · double');
  });

  it('is not kept where nothing comes round', () => {
    const one = { keys: ['C'], articulations: ['slurred'] };
    expect(nameByHand(exerciseOf(one), 'C', 'slurred')).toBeNull();
    expect(next(one).name).toBeNull();
    expect(nameByHand(exerciseOf({ ...one, rotation: { fingerings: true } }), 'C', 'slurred')).toBe('C · slurred');
    expect(nameByHand(exerciseOf({ rotation: { change: 'repetition' } }), 'C', 'slurred')).toBe('C · slurred');
  });
});

describe('a turn', () => {
  it.each([
    ['repetition', true, true],
    ['rung', false, true],
    ['block', false, false],
  ] as const)('that changes with the %s ends with a mark: %s, with a new rung: %s', (change, mark, rung) => {
    const exercise = { rotation: { ...PLAIN_ROTATION, change } };
    expect([isTurnOver(exercise, false, 'missed'), isTurnOver(exercise, true, 'missed')]).toEqual([mark, rung]);
  });

  it('ends with each repetition where ways of tonguing take turns, but for a missed one', () => {
    const exercise = { rotation: { ...PLAIN_ROTATION, articulations: 'in turn' as const } };
    expect((['clean', 'tense', 'missed'] as const).map((mark) => isTurnOver(exercise, true, mark))).toEqual([
      true,
      true,
      false,
    ]);
  });

  it('lasts for the block where the file says nothing', () => {
    expect(isTurnOver({}, true, 'clean')).toBe(false);
  });
});
