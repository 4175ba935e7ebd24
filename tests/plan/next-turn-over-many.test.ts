/** Over enough blocks every key, every way of tonguing and every fingering comes round, whatever happens between. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KEY_ORDERS } from '../../src/plan/rotation/key-order.ts';
import type { Rotation } from '../../src/plan/rotation/key-rotation.ts';
import { turnName } from '../../src/plan/rotation/turn.ts';
import { type Setup, crossed, next, playOn, withBest } from './turns-asked.ts';

const KEYS = ['C', 'F', 'F#', 'A minor'];
const TONGUINGS = ['slurred', 'double', 'slur 2 tongue 2'];

const setups = fc.record({
  keys: fc.shuffledSubarray(KEYS, { minLength: 1 }),
  articulations: fc.shuffledSubarray(TONGUINGS, { minLength: 1 }),
  rotation: fc.record({
    order: fc.constantFrom(...KEY_ORDERS),
    change: fc.constantFrom<Rotation['change']>('rung', 'block'),
    fingerings: fc.boolean(),
    weakTimes: fc.integer({ min: 1, max: 2 }),
    edgeTimes: fc.integer({ min: 1, max: 2 }),
  }),
  edges: fc.subarray(KEYS),
  seed: fc.integer(),
});

/** Every name that the setup promises. */
const promised = ({ keys, articulations, rotation }: Setup): readonly string[] =>
  crossed(keys ?? [], articulations ?? []).flatMap((name) =>
    rotation?.fingerings ? [name, `${name} · alternate`] : [name],
  );

describe('over enough blocks', () => {
  it('every key in every articulation with every fingering comes round, whatever came before', () => {
    const before = fc.array(fc.constantFrom(...crossed(KEYS, TONGUINGS), 'gone · single', 'F · single · alternate'));
    fc.assert(
      fc.property(setups, before, (setup, came) => {
        const most = promised(setup).length * 2 * 2;
        const names = playOn(2 * most, { ...setup, came });
        expect(promised(setup).filter((name) => !names.includes(name))).toEqual([]);
      }),
    );
  });

  it('each comes as often as it should before the round is over', () => {
    fc.assert(
      fc.property(setups, (setup) => {
        const pairs = setup.rotation.order === 'semitone pairs';
        const rotation = { ...setup.rotation, weakTimes: 1, edgeTimes: 2 };
        const names = promised(setup).flatMap((name) =>
          setup.edges.includes(name.split(' · ')[0] ?? '') ? [name, name] : [name],
        );
        const came = playOn(names.length, { ...setup, rotation });
        if (!pairs) expect(came.toSorted()).toEqual(names.toSorted());
      }),
    );
  });

  it('also while bests rise and keys become weak or strong', () => {
    fc.assert(
      fc.property(setups, fc.infiniteStream(fc.integer({ min: 40, max: 160 })), (setup, bests) => {
        const most = promised(setup).length * 2 * 2;
        const came: string[] = [];
        for (let i = 0; i < 3 * most; i += 1) {
          const histories = setup.articulations.flatMap((articulation) =>
            setup.keys.map((key) => withBest(articulation, key, bests.next().value ?? 60)),
          );
          came.push(turnName(next({ ...setup, histories, came })));
        }
        expect(promised(setup).filter((name) => !came.includes(name))).toEqual([]);
      }),
      { numRuns: 25 },
    );
  });
});
