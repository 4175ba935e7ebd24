import { describe, expect, it } from 'vitest';
import { checkRule, isPlayable } from '../../src/ladder/rule/rule-check.ts';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';

const ratio = (percent: number): LadderRule['step'] => ({ by: 'ratio', percent });

describe('a ladder rule', () => {
  it('is sound as it comes', () => {
    expect(checkRule(DEFAULT_RULE)).toEqual([]);
  });

  it.each<[string, Partial<LadderRule>, RegExp]>([
    ['no clean repetitions', { cleanUp: 0 }, /clean repetitions before going up is 0; .* whole number from 1/],
    ['a fraction of one', { missedDown: 1.5 }, /missed repetitions before going down is 1.5/],
    ['nothing that is a number', { rungsUp: Number.NaN }, /rungs to go up is NaN/],
    ['a step of 0 %', { step: ratio(0) }, /is 0 %; it must be from 0.1 % to 50 %/],
    ['a step of 200 %', { step: ratio(200) }, /is 200 %/],
    ['steps of less than a beat in whole numbers', { step: { by: 'beats', bpm: 0.5 } }, /from 1 to 100/],
    ['a ladder upside down', { floor: 120, top: 60 }, /highest must be above the lowest/],
    ['an impossible top', { top: 90_000 }, /highest tempo is 90000; it must be from 10 to 400/],
    ['a start below the floor', { start: 30 }, /start is 30; it must lie on the ladder, from 40 to 240/],
    ['a target above the top', { target: 300 }, /target is 300/],
    [
      'slow repetitions that are not slow',
      { order: 'alternate', slowShare: 1 },
      /slow repetitions are played at 1 of the tempo/,
    ],
    ['one rung', { step: ratio(50), floor: 100, top: 120, start: 100, target: 100 }, /one rung only/],
  ])('with %s has one sentence that says so', (_, change, sentence) => {
    const sentences = checkRule({ ...DEFAULT_RULE, ...change });
    expect(sentences).toHaveLength(1);
    expect(sentences[0]).toMatch(sentence);
  });

  it('says everything that is wrong at once', () => {
    expect(checkRule({ ...DEFAULT_RULE, cleanUp: 0, step: ratio(0), start: 10 })).toHaveLength(3);
  });

  it.each([0, -60, Number.NaN, Number.POSITIVE_INFINITY, 1e9])('cannot be played at %d', (bpm) => {
    expect(isPlayable(bpm)).toBe(false);
  });
});
