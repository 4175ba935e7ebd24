import { describe, expect, it } from 'vitest';
import { checkRule, isPlayable } from '../../src/ladder/rule/rule-check.ts';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';

const ratio = (percent: number): LadderRule['step'] => ({ by: 'ratio', percent });
const beats = (bpm: number): LadderRule['step'] => ({ by: 'beats', bpm });

describe('a ladder rule', () => {
  it.each<[string, Partial<LadderRule>]>([
    ['as it comes', {}],
    ['at the lowest of everything', { cleanUp: 1, missedDown: 1, rungsUp: 1, rungsDown: 1, step: ratio(0.1) }],
    ['at the highest of everything', { cleanUp: 20, missedDown: 20, rungsUp: 10, rungsDown: 10, step: ratio(50) }],
    ['with steps of one beat', { step: beats(1) }],
    ['with steps of a hundred beats', { step: beats(100) }],
    ['with steps of a tenth of a beat and fractions', { step: beats(0.1), fractions: true }],
    ['with the traditional marks', { step: { by: 'marks' } }],
    ['from the slowest to the fastest', { floor: 10, top: 400, start: 10, target: 400 }],
    ['with the start at the top and the target at the floor', { start: 240, target: 40 }],
    ['with the slowest slow repetitions', { order: 'alternate', slowShare: 0.2 }],
    ['with the fastest slow repetitions', { order: 'alternate', slowShare: 0.95 }],
    ['with a slow share that nothing asks for', { order: 'climb', slowShare: 7 }],
    ['with two rungs', { step: ratio(50), floor: 100, top: 150, start: 100, target: 150 }],
  ])('is sound %s', (_, change) => {
    expect(checkRule({ ...DEFAULT_RULE, ...change })).toEqual([]);
  });

  it.each<[string, Partial<LadderRule>, string]>([
    [
      'no clean repetitions',
      { cleanUp: 0 },
      'The number of clean repetitions before going up is 0; it must be a whole number from 1 to 20.',
    ],
    [
      'too many clean repetitions',
      { cleanUp: 21 },
      'The number of clean repetitions before going up is 21; it must be a whole number from 1 to 20.',
    ],
    [
      'a fraction of one',
      { missedDown: 1.5 },
      'The number of missed repetitions before going down is 1.5; it must be a whole number from 1 to 20.',
    ],
    [
      'too many missed repetitions',
      { missedDown: 21 },
      'The number of missed repetitions before going down is 21; it must be a whole number from 1 to 20.',
    ],
    [
      'nothing that is a number',
      { rungsUp: Number.NaN },
      'The number of rungs to go up is NaN; it must be a whole number from 1 to 10.',
    ],
    ['too far up', { rungsUp: 11 }, 'The number of rungs to go up is 11; it must be a whole number from 1 to 10.'],
    [
      'too far down',
      { rungsDown: 11 },
      'The number of rungs to go down is 11; it must be a whole number from 1 to 10.',
    ],
    [
      'a step of 0 %',
      { step: ratio(0) },
      'The step between rungs is 0 %; it must be from 0.1 % to 50 %, and 3 % is usual.',
    ],
    [
      'a step of 200 %',
      { step: ratio(200) },
      'The step between rungs is 200 %; it must be from 0.1 % to 50 %, and 3 % is usual.',
    ],
    [
      'steps of less than a beat in whole numbers',
      { step: beats(0.5) },
      'The step between rungs is 0.5 beats per minute; it must be from 1 to 100.',
    ],
    [
      'steps of almost nothing',
      { step: beats(0.05), fractions: true },
      'The step between rungs is 0.05 beats per minute; it must be from 0.1 to 100.',
    ],
    [
      'steps beyond reason',
      { step: beats(101) },
      'The step between rungs is 101 beats per minute; it must be from 1 to 100.',
    ],
    [
      'a ladder upside down',
      { floor: 120, top: 60 },
      "The ladder's lowest tempo is 120 and its highest 60; the highest must be above the lowest.",
    ],
    [
      'a ladder of no height',
      { floor: 90, top: 90, start: 90, target: 90 },
      "The ladder's lowest tempo is 90 and its highest 90; the highest must be above the lowest.",
    ],
    [
      'an impossible top',
      { top: 90_000 },
      "The ladder's highest tempo is 90000; it must be from 10 to 400 beats per minute.",
    ],
    [
      'an impossible floor',
      { floor: 9 },
      "The ladder's lowest tempo is 9; it must be from 10 to 400 beats per minute.",
    ],
    ['a start below the floor', { start: 30 }, "The ladder's start is 30; it must lie on the ladder, from 40 to 240."],
    [
      'a target above the top',
      { target: 300 },
      "The ladder's target is 300; it must lie on the ladder, from 40 to 240.",
    ],
    [
      'slow repetitions that are not slow',
      { order: 'alternate', slowShare: 1 },
      'The slow repetitions are played at 1 of the tempo; it must be from 0.2 to 0.95.',
    ],
    [
      'one rung',
      { step: ratio(50), floor: 100, top: 120, start: 100, target: 100 },
      'The ladder from 100 to 120 has one rung only; choose a smaller step or a higher top.',
    ],
  ])('with %s has one sentence that says so', (_, change, sentence) => {
    expect(checkRule({ ...DEFAULT_RULE, ...change })).toEqual([sentence]);
  });

  it('says everything that is wrong at once', () => {
    expect(checkRule({ ...DEFAULT_RULE, cleanUp: 0, step: ratio(0), start: 10 })).toHaveLength(3);
    expect(checkRule({ ...DEFAULT_RULE, floor: 5, top: 500 })).toHaveLength(2);
  });

  it.each([10, 10.5, 400])('can be played at %d', (bpm) => {
    expect(isPlayable(bpm)).toBe(true);
  });

  it.each([0, -60, 9.99, 400.01, Number.NaN, Number.POSITIVE_INFINITY, 1e9])('cannot be played at %d', (bpm) => {
    expect(isPlayable(bpm)).toBe(false);
  });
});
