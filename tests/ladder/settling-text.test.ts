import { describe, expect, it } from 'vitest';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';
import type { PlayerCurve } from '../../src/ladder/settling/player-curve.ts';
import { type Settling, settlingOf } from '../../src/ladder/settling/settling-tempo.ts';
import {
  ALTERNATION_REMARK,
  climbText,
  curveText,
  ruleText,
  settlingText,
} from '../../src/ladder/settling/settling-text.ts';

const RULE: LadderRule = {
  ...DEFAULT_RULE,
  cleanUp: 3,
  missedDown: 2,
  tenseDown: null,
  step: { by: 'ratio', percent: 3 },
};
const CURVE: PlayerCurve = { threshold: 112.5, slope: 12, lapse: 0.02, tense: 0.3 };

describe('a rule in a sentence', () => {
  it.each<[string, LadderRule, string]>([
    [
      'several in a row, one rung each way',
      { ...RULE, rungsUp: 1, rungsDown: 1, floor: 40, top: 240 },
      'Up one rung after 3 clean repetitions in a row, down one rung after 2 missed in a row; steps of 3 %, 40 to 240.',
    ],
    [
      'one repetition each, several rungs',
      { ...RULE, cleanUp: 1, missedDown: 1, rungsUp: 2, rungsDown: 3, step: { by: 'beats', bpm: 2.5 }, floor: 50.5 },
      'Up 2 rungs after 1 clean repetition, down 3 rungs after 1 missed; steps of 2.5 beats per minute, 50.5 to 240.',
    ],
    [
      'the old marks',
      { ...RULE, step: { by: 'marks' }, top: 208 },
      'Up one rung after 3 clean repetitions in a row, down one rung after 2 missed in a row; the traditional ' +
        'metronome ' +
        'marks, 40 to 208.',
    ],
  ])('%s', (_, rule, sentence) => {
    expect(ruleText(rule)).toBe(sentence);
  });
});

describe('a player in a sentence', () => {
  it('has the threshold, the slope, the lapses and what is tense', () => {
    expect(curveText(CURVE)).toBe(
      'A player who is clean half of the time at 112.5; slope 12, lapses 2 %, of what is not clean 30 % tense.',
    );
  });
});

describe('a settling in sentences', () => {
  const settling: Settling = {
    tempo: 103.449,
    marks: { clean: 0.794, tense: 0.1449, missed: 0.0611 },
    low: 94,
    high: 110.5,
    spread: 0.05674,
    rungs: [],
  };

  it('has the mean, the spread and what becomes of a hundred repetitions', () => {
    // Levitt 1971: three clean up, one missed down settles at 79 % clean where the steps are small.
    const rule: LadderRule = { ...RULE, missedDown: 1, step: { by: 'ratio', percent: 0.25 }, fractions: true };
    expect(settlingText(rule, { ...CURVE, lapse: 0, tense: 0 }, settling)).toBe(
      [
        'About 10 of 10 clean in half an hour; in the long run 8.',
        'In the long run: mean tempo 103.4, give or take 5.7 %; 8 of 10 repetitions from 94 to 110.5.',
        'Of 100 repetitions 79 are clean, 14 tense, 6 missed.',
        'Of the first 100 from 60, about half an hour, 100 are clean, 0 tense, 0 missed.',
      ].join('\n'),
    );
  });

  it('says what is met from the start rung where moves of several rungs leave the others out', () => {
    const jumps: LadderRule = { ...RULE, missedDown: 1, rungsUp: 3, rungsDown: 3 };
    const player = { ...CURVE, threshold: 85 };
    const said = settlingText(jumps, player, settlingOf(jumps, player));
    // The rungs from 60 on are 60 61 62 64 66 68 70 72 74 77 79 81 84: every third.
    expect(said).toContain('These moves leave rungs out. From 60 you meet 64, 70, 77, 84, and after 2000');
    expect(settlingText(DEFAULT_RULE, player, settlingOf(DEFAULT_RULE, player))).not.toContain('leave rungs out');
  });

  it('says what it leaves out', () => {
    expect(ALTERNATION_REMARK).toBe(
      'Reckoned for the ladder alone. With the order ‘alternate’ the slow repetitions in between move nothing: it ' +
        'settles at the same tempo, with twice as many repetitions.',
    );
  });
});

describe('a climb in a sentence', () => {
  it.each<[number, string]>([
    [0, 'From 80 to 92.5: nothing to climb.'],
    [0.4, 'From 80 to 92.5: about 0 repetitions, for a player who does not get better.'],
    [41.6, 'From 80 to 92.5: about 42 repetitions, for a player who does not get better.'],
    [1e6, 'From 80 to 92.5: about 1000000 repetitions, for a player who does not get better.'],
    [1e6 + 1, 'From 80 to 92.5: practically never, for a player who does not get better.'],
    [Infinity, 'From 80 to 92.5: practically never, for a player who does not get better.'],
  ])('of %d repetitions', (repetitions, sentence) => {
    expect(climbText(80, 92.5, repetitions)).toBe(sentence);
  });
});
