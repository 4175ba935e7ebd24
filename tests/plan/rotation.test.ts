import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/common/chance.ts';
import { ALL_MAJOR } from '../../src/music/pitch/keys.ts';
import { type Cell, cellName, cellsOf, coverage, drawNext } from '../../src/plan/rotation/key-and-articulation-draw.ts';
import {
  KEY_ORDERS,
  NOTHING_KNOWN,
  PLAIN_ROTATION,
  type Rotation,
  ladderKey,
  turnAfter,
  turnsOf,
  weakKeys,
} from '../../src/plan/rotation/key-rotation.ts';

const keysOf = (rotation: Partial<Rotation>, keys: readonly string[] = ALL_MAJOR, known = NOTHING_KNOWN) =>
  turnsOf(keys, { ...PLAIN_ROTATION, ...rotation }, known, seeded(7)).map((turn) => turn.key);
const chromatic = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];

describe('keys come round', () => {
  // The circle of fifths, any handbook of theory.
  it('by fifths and fourths from the first one', () => {
    expect(keysOf({ order: 'fifths' }, chromatic)).toEqual([
      'C',
      'G',
      'D',
      'A',
      'E',
      'B',
      'F#',
      'Db',
      'Ab',
      'Eb',
      'Bb',
      'F',
    ]);
    expect(keysOf({ order: 'fourths' }, chromatic)).toEqual([
      'C',
      'F',
      'Bb',
      'Eb',
      'Ab',
      'Db',
      'F#',
      'B',
      'E',
      'A',
      'D',
      'G',
    ]);
    expect(keysOf({ order: 'fifths' }, ['F', 'Bb', 'C', 'Eb'])).toEqual(['F', 'C', 'Eb', 'Bb']);
  });

  it('chromatically and in the order they were written', () => {
    expect(keysOf({ order: 'chromatic' })).toEqual(chromatic);
    expect(keysOf({ order: 'chromatic' }, ['G', 'C', 'Bb'])).toEqual(['G', 'Bb', 'C']);
    expect(keysOf({ order: 'own' }, ['G', 'C', 'A minor'])).toEqual(['G', 'C', 'A minor']);
  });

  it('in semitone pairs, to and fro', () => {
    expect(keysOf({ order: 'semitone pairs' }).slice(0, 8)).toEqual(['C', 'Db', 'C', 'Db', 'D', 'Eb', 'D', 'Eb']);
    expect(keysOf({ order: 'semitone pairs' }, ['C', 'E', 'F'])).toEqual(['C', 'E', 'F', 'E', 'F']);
    expect(keysOf({ order: 'semitone pairs' }, ['C', 'Db'], { ...NOTHING_KNOWN, once: true })).toEqual(['C', 'Db']);
  });

  it('drawn without replacement, the same from the same seed', () => {
    const drawn = keysOf({ order: 'drawn' });
    expect([...drawn].sort()).toEqual([...ALL_MAJOR].sort());
    expect(drawn).not.toEqual(ALL_MAJOR);
    expect(keysOf({ order: 'drawn' })).toEqual(drawn);
  });

  it('in every order, none left out and none twice in a once-round', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...KEY_ORDERS),
        fc.subarray([...ALL_MAJOR, 'A minor', 'Eb minor'], { minLength: 1 }),
        (order, keys) => {
          const once = keysOf({ order, weakTimes: 3, fingerings: true }, keys, {
            ...NOTHING_KNOWN,
            weak: new Set(keys),
            once: true,
          });
          expect([...once].sort()).toEqual([...keys].sort());
        },
      ),
    );
  });
});

describe('turns', () => {
  it('last longer for weak keys and at the edges of the range', () => {
    const known = { weak: new Set(['B']), edge: new Set(['C', 'B']), once: false };
    const turns = turnsOf(['C', 'B', 'F'], { ...PLAIN_ROTATION, weakTimes: 3, edgeTimes: 2 }, known, seeded(1));
    expect(turns.map((turn) => turn.times)).toEqual([2, 3, 1]);
    expect([0, 1, 2, 3, 4, 5, 6].map((done) => turnAfter(turns, done)?.key)).toEqual([
      'C',
      'C',
      'B',
      'B',
      'B',
      'F',
      'C',
    ]);
    expect(turnAfter([], 3)).toBeNull();
  });

  it('come in pairs of ordinary and alternate fingering', () => {
    const turns = turnsOf(['C', 'F'], { ...PLAIN_ROTATION, fingerings: true }, NOTHING_KNOWN, seeded(1));
    expect(turns.map((turn) => `${turn.key} ${turn.fingering}`)).toEqual([
      'C ordinary',
      'C alternate',
      'F ordinary',
      'F alternate',
    ]);
  });

  it('call those keys weak that were never held or lie far below the middle', () => {
    const bests: Record<string, number> = { C: 120, F: 118, G: 122, B: 90 };
    expect([...weakKeys(['C', 'F', 'G', 'B', 'F#'], (key) => bests[key] ?? null)]).toEqual(['B', 'F#']);
    expect(weakKeys(['C'], () => null).size).toBe(0);
  });

  it('keep a ladder for each key or share one', () => {
    expect(ladderKey(PLAIN_ROTATION, 'Bb')).toBe('Bb');
    expect(ladderKey({ ...PLAIN_ROTATION, ladder: 'shared' }, 'Bb')).toBe('all keys');
  });
});

const heavy = (cell: Cell): number => (cell.key === 'Bb' ? 1000 : 1);

function drawMany(from: readonly Cell[], drawn: readonly string[], many: number, seed: number): readonly string[] {
  const chance = seeded(seed);
  const all = [...drawn];
  for (let i = 0; i < many; i += 1) {
    const cell = drawNext(from, all, chance);
    if (cell) all.push(cellName(cell));
  }
  return all;
}

describe('the draw', () => {
  const cells = cellsOf({ keys: ['C', 'F', 'Bb'], articulations: ['single', 'double'] });

  it('covers every cell before one comes twice, from any seed', () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer({ min: 1, max: 4 }), (seed, rounds) => {
        const drawn = drawMany(cells, [], rounds * cells.length, seed);
        for (let round = 0; round < rounds; round += 1) {
          expect(new Set(drawn.slice(round * cells.length, (round + 1) * cells.length)).size).toBe(cells.length);
        }
        drawn.forEach((name, i) => expect(name).not.toBe(drawn[i + 1]));
      }),
    );
  });

  it('goes on from what the journal remembers', () => {
    const drawn = ['C · single', 'F · single', 'Bb · single', 'C · double', 'gone · double'];
    expect(coverage(cells, drawn)).toEqual({ drawn: 4, of: 6, round: 1 });
    const next = drawMany(cells, drawn, 2, 3).slice(-2);
    expect([...next].sort()).toEqual(['Bb · double', 'F · double']);
    expect(coverage(cells, [...drawn, ...next])).toEqual({ drawn: 0, of: 6, round: 2 });
  });

  it('takes a key that is added later into the round, once', () => {
    const old = drawMany(cells, [], 18, 5);
    const more = cellsOf({ keys: ['C', 'F', 'Bb', 'D'], articulations: ['single', 'double'] });
    const next = drawMany(more, old, 10, 9).slice(18);
    expect(next.slice(0, 2).sort()).toEqual(['D · double', 'D · single']);
    expect(new Set(next.slice(2)).size).toBe(8);
  });

  it('lets weighted cells come earlier', () => {
    expect(drawNext(cells, [], seeded(2), heavy)?.key).toBe('Bb');
    expect(drawNext([], [], seeded(2))).toBeNull();
  });
});
