import { describe, expect, it } from 'vitest';
import { markingOf, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { DEFAULT_RULE } from '../../src/ladder/rule/ladder-rule.ts';
import { nearestRung } from '../../src/ladder/rule/rungs.ts';
import { type Wall, wallOf } from '../../src/ladder/wall/wall.ts';
import { historyOf, type Played } from './histories.ts';
import { BELOW, FALL, GOOD, LAST, LINE, REST, RUNGS, UNDER, WALL, at } from './wall-days.ts';

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
