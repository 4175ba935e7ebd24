/** A way round a wall that is put away half played, by whichever key, is in the journal as left: once. */
import { describe, expect, it } from 'vitest';
import { hear } from './keeping.ts';
import { sit } from './daily-sitting.ts';

/** The sitting's first ladder, with a way under way. */
function onWay() {
  const sat = sit();
  sat.press('open', 'play-block');
  while (!sat.practice()) sat.press('next-block');
  sat.press('way', 'open', 'start-pause');
  hear(sat.program, 'count-in');
  const { line, way } = sat.practice()!;
  const ways = () => sat.records().flatMap((record) => (record.kind === 'way' ? [record] : []));
  return { ...sat, ways, left: { ...line, way: way!.way.id, wall: way!.wall, outcome: 'left' } };
}

describe('a way round a wall', () => {
  it.each(['next-block', 'skip-block', 'swap-block', 'block-before', 'back', 'leave', 'way'] as const)(
    'put away by %s is kept as left',
    (action) => {
      const { press, ways, left } = onWay();
      press(action);
      expect(ways()).toMatchObject([left]);
    },
  );

  it('put away by the end of the sitting is kept as left', () => {
    const { press, ways, left, screen } = onWay();
    for (let k = 0; k < 40 && screen() !== 'end'; k += 1) press('next-block');
    expect(screen()).toBe('end');
    expect(ways()).toMatchObject([left]);
  });

  it('goes on when only the time of the block is up', () => {
    const { pass, ways, practice } = onWay();
    pass(3000);
    expect(practice()?.way).not.toBeNull();
    expect(ways()).toEqual([]);
  });
});
