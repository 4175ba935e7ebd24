import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/common/chance.ts';
import { type Outlook, aimedTempo, shareWanted } from '../../src/ladder/rule/aim.ts';
import { afterMark, startAt } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE, type LadderRule, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { checkRule } from '../../src/ladder/rule/rule-check.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { aimedMarks } from './aiming-players.ts';
import { anyPlayer } from './simulated-players.ts';

const RULE: LadderRule = { ...DEFAULT_RULE, aim: 0.8, step: { by: 'beats', bpm: 10 }, floor: 60, top: 140 };
const RUNGS = rungsOf(RULE);

/** Clean up to a tempo in nine of ten, above it in half of them, and nothing to make up for. */
const until = (bpm: number): Outlook => ({ cleanAt: (at) => (at <= bpm ? 0.9 : 0.5), played: [] });

describe('a rule that aims at a share', () => {
  it.each<[string, number, Mark, number, number]>([
    ['goes to the highest rung that lets expect it', 90, 'clean', 100, 100],
    ['by two rungs at most', 90, 'clean', 140, 110],
    ['not up after a tense one', 90, 'tense', 140, 90],
    ['nor after a missed one', 90, 'missed', 140, 90],
    ['down to that rung after a missed one', 90, 'missed', 80, 80],
    ['by two rungs at most, down too', 110, 'tense', 60, 90],
    ['not down after a clean one', 110, 'clean', 60, 110],
    ['stays on the top', 140, 'clean', 140, 140],
    ['and on the floor', 60, 'missed', 40, 60],
  ])('%s', (_, bpm, mark, safe, next) => {
    expect(aimedTempo(bpm, mark, 0.8, RUNGS, until(safe))).toBe(next);
  });

  it('asks for a little more where too few were clean lately, for a little less where too many were', () => {
    expect(shareWanted(0.8, [])).toBeCloseTo(0.8, 9);
    expect(shareWanted(0.8, [{ clean: 8, all: 10 }])).toBeCloseTo(0.8, 9);
    expect(shareWanted(0.8, [{ clean: 0, all: 1 }])).toBeGreaterThan(0.8);
    expect(shareWanted(0.8, [{ clean: 4, all: 4 }])).toBeLessThan(0.8);
    expect(shareWanted(0.8, [{ clean: 100, all: 100 }])).toBeCloseTo(0.6, 9);
    expect(shareWanted(0.95, [{ clean: 0, all: 30 }])).toBeLessThan(1);
    // What is long past weighs little.
    const long = [
      { clean: 0, all: 10 },
      { clean: 400, all: 500 },
    ];
    expect(shareWanted(0.8, long)).toBeCloseTo(0.8, 1);
  });

  it('makes a best of so many clean in a row at one rung, as every rule does', () => {
    const stays: Outlook = { cleanAt: () => 0.1, played: [] };
    let climb = startAt(90);
    for (let n = 0; n < 2; n += 1) climb = afterMark(climb, 'clean', RULE, RUNGS, stays);
    expect(climb).toMatchObject({ bpm: 90, cleanRun: 2, best: null });
    climb = afterMark(climb, 'clean', RULE, RUNGS, stays);
    expect(climb).toMatchObject({ bpm: 90, cleanRun: 0, best: 90 });
    expect(afterMark(startAt(90), 'clean', RULE, RUNGS, until(140))).toMatchObject({ bpm: 110, best: null });
  });

  it('never leaves the ladder, whatever is expected', () => {
    const marks = fc.array(fc.constantFrom<Mark>('clean', 'tense', 'missed'), { maxLength: 40 });
    fc.assert(
      fc.property(marks, fc.integer({ min: 1, max: 300 }), (played, safe) => {
        const tempos = played.map(
          ((climb) => (mark: Mark) => {
            climb = afterMark(climb, mark, RULE, RUNGS, until(safe));
            return climb.bpm;
          })(startAt(90)),
        );
        expect(tempos.every((bpm) => RUNGS.includes(bpm))).toBe(true);
      }),
    );
  });

  it.each([0, 0.59, 0.96, 1, Number.NaN])('of %d is no rule', (aim) => {
    expect(checkRule({ ...DEFAULT_RULE, aim })).toEqual([
      `The share of clean repetitions aimed at is ${Math.round(aim * 1000) / 10} %; it must be from 60 % to 95 %.`,
    ]);
  });

  // Threshold 60 to 200, slope 6 to 40, lapses to 6 %, tense to 50 %, drift and form to 2 % (`anyPlayer`).
  it.each([0.75, 0.8, 0.85])('of %d is reached within 3 points after 60 marks', (aim) => {
    const shares = Array.from({ length: 40 }, (_, seed) => {
      const chance = seeded(1000 + seed);
      const late = aimedMarks(anyPlayer(chance), aim, 6, 20, chance).slice(60);
      return late.filter((mark) => mark === 'clean').length / late.length;
    });
    const mean = shares.reduce((a, b) => a + b) / shares.length;
    expect(Math.abs(mean - aim)).toBeLessThan(0.03);
  });
});
