import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Climb, afterMark, nudged, startAt } from '../../src/ladder/rule/climb.ts';
import { NO_BELIEF, weightsOn, chanceOfClean, markingOf, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { DEFAULT_RULE, type LadderRule, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { afterMarks } from './histories.ts';
import { type StartInput, startToday } from '../../src/ladder/speed/todays-start.ts';

const RUNGS = rungsOf(DEFAULT_RULE);
const MARKING = markingOf(0.3);
const said = (bpm: number, mark: Mark, times: number) => Array.from({ length: times }, () => ({ day: 0, bpm, mark }));
const belief = afterMarks(MARKING, NO_BELIEF, [
  ...said(97, 'clean', 20),
  ...said(100, 'clean', 12),
  ...said(112, 'missed', 5),
]);

const input: StartInput = {
  rule: DEFAULT_RULE,
  rungs: RUNGS,
  marking: MARKING,
  belief,
  prior: weakPrior(DEFAULT_RULE),
  best: null,
  day: 1,
};

describe("today's start", () => {
  it('is the highest rung where nine of ten are clean, by the estimate', () => {
    const { bpm, reason } = startToday(input);
    const cells = weightsOn(belief, input.prior, 1);
    const next = RUNGS[RUNGS.indexOf(bpm) + 1]!;
    expect(chanceOfClean(cells, MARKING(bpm))).toBeGreaterThanOrEqual(0.9);
    expect(chanceOfClean(cells, MARKING(next))).toBeLessThan(0.9);
    expect(reason).toBe(`Start at ${bpm}: the highest where the marks so far say 9 of 10 are clean.`);
  });

  it('is never above the best', () => {
    const best = RUNGS[20]!;
    expect(startToday({ ...input, best })).toEqual({
      bpm: best,
      reason: `Start at ${best}: your best; the marks so far say that it is safe.`,
    });
  });

  it('is lower after a lay-off, the lower the longer, and says so', () => {
    const [now, week, month, year] = [1, 8, 31, 400].map((day) => startToday({ ...input, day }));
    expect(week!.bpm).toBeLessThan(now!.bpm);
    expect(month!.bpm).toBeLessThan(week!.bpm);
    expect(year!.bpm).toBeLessThanOrEqual(month!.bpm);
    expect(month!.reason).toMatch(/^Start at \d+: below \d+, after 31 days without this line\.$/u);
  });

  it('is the exercise own where nothing is known', () => {
    expect(startToday({ ...input, belief: NO_BELIEF }).reason).toContain("the exercise's own start");
  });

  it('is always a rung, in one line', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            day: fc.integer({ min: 0, max: 60 }),
            bpm: fc.constantFrom(...RUNGS),
            mark: fc.constantFrom<Mark>('clean', 'tense', 'missed'),
          }),
          { maxLength: 40 },
        ),
        fc.option(fc.constantFrom(...RUNGS)),
        fc.integer({ min: 60, max: 200 }),
        (marks, best, day) => {
          const dated = marks.toSorted((a, b) => a.day - b.day);
          const start = startToday({ ...input, belief: afterMarks(MARKING, NO_BELIEF, dated), best, day });
          expect(RUNGS).toContain(start.bpm);
          expect(start.reason).not.toContain('\n');
          if (best !== null && dated.length > 0) expect(start.bpm).toBeLessThanOrEqual(best);
        },
      ),
      { numRuns: 60 },
    );
  });
});

function moved(climb: Climb, move: string, rule: LadderRule, rungs: readonly number[]): Climb {
  if (move === 'faster' || move === 'slower') return nudged(climb, move === 'faster' ? 1 : -1, rungs);
  return afterMark(climb, move as Mark, rule, rungs);
}

describe('the ladder itself', () => {
  const rules: fc.Arbitrary<LadderRule> = fc
    .record({
      cleanUp: fc.integer({ min: 1, max: 5 }),
      missedDown: fc.integer({ min: 1, max: 4 }),
      rungsUp: fc.integer({ min: 1, max: 3 }),
      rungsDown: fc.integer({ min: 1, max: 3 }),
      step: fc.oneof(
        fc.constant({ by: 'marks' } as const),
        fc.record({ by: fc.constant('ratio' as const), percent: fc.integer({ min: 1, max: 30 }) }),
        fc.record({ by: fc.constant('beats' as const), bpm: fc.integer({ min: 1, max: 12 }) }),
      ),
    })
    .map((some) => ({ ...DEFAULT_RULE, ...some }));
  const moves = fc.array(fc.constantFrom('clean', 'tense', 'missed', 'undo', 'faster', 'slower'), { maxLength: 80 });

  it('is never left by any sequence of marks, nudges and undos; undo is exact', () => {
    fc.assert(
      fc.property(rules, moves, fc.nat(), (rule, sequence, at) => {
        const rungs = rungsOf(rule);
        const past: Climb[] = [startAt(rungs[at % rungs.length]!)];
        for (const move of sequence) {
          if (move === 'undo')
            past
              .splice(1)
              .slice(0, -1)
              .forEach((climb) => past.push(climb));
          else past.push(moved(past.at(-1)!, move, rule, rungs));
          expect(rungs).toContain(past.at(-1)!.bpm);
        }
        // What was not taken back gives the same ladder when it is played alone.
        const kept: string[] = [];
        for (const move of sequence) {
          if (move === 'undo') kept.pop();
          else kept.push(move);
        }
        expect(kept.reduce((climb, move) => moved(climb, move, rule, rungs), past[0]!)).toEqual(past.at(-1));
      }),
      { numRuns: 150 },
    );
  });

  it('has a best only of rungs that were held, and it never falls', () => {
    fc.assert(
      fc.property(rules, moves, (rule, sequence) => {
        const rungs = rungsOf(rule);
        let climb = startAt(rungs[Math.floor(rungs.length / 2)]!);
        for (const move of sequence.filter((one) => one !== 'undo')) {
          const next = moved(climb, move, rule, rungs);
          if (next.best !== climb.best) {
            expect(move).toBe('clean');
            expect(climb.cleanRun).toBe(rule.cleanUp - 1);
            expect(next.best).toBe(climb.bpm);
          }
          expect(next.best ?? 0).toBeGreaterThanOrEqual(climb.best ?? 0);
          climb = next;
        }
      }),
      { numRuns: 100 },
    );
  });
});
