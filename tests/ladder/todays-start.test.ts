import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_BELIEF, weightsOn, chanceOfClean, markingOf, weakPrior } from '../../src/ladder/speed/speed-estimate.ts';
import { DEFAULT_RULE, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
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
