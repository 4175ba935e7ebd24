import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Belief,
  NO_BELIEF,
  type Normal,
  chanceOfClean,
  markingOf,
  weakPrior,
  weightsOn,
} from '../../src/ladder/speed/speed-estimate.ts';
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

/** The highest rung where nine of ten are clean, looked for one by one. */
const highest = (known: Belief, prior: Normal, day: number): number =>
  RUNGS.findLast((rung) => chanceOfClean(weightsOn(known, prior, day), MARKING(rung)) >= 0.9)!;

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

  it("is the exercise's own where nothing is known", () => {
    const rule = { ...DEFAULT_RULE, start: 62.5 };
    // Rungs at 60, 62, 64: of two as near the lower.
    expect(startToday({ ...input, rule, rungs: [60, 62, 64], belief: NO_BELIEF })).toEqual({
      bpm: 62,
      reason: "Start at 62: the exercise's own start, for a line not played yet.",
    });
  });

  it('is where other keys and articulations point, for a line not played yet', () => {
    const prior = { mean: Math.log(120), sd: 0.05 };
    const bpm = highest(NO_BELIEF, prior, 1);
    expect(startToday({ ...input, belief: NO_BELIEF, prior, siblings: true })).toEqual({
      bpm,
      reason: `Start at ${bpm}: not played yet; your other keys and articulations point there.`,
    });
    expect(bpm).toBeGreaterThan(100);
  });

  it('is the lowest rung where none is safe, and the highest where all are', () => {
    expect(startToday({ ...input, rungs: [140, 150, 160] }).bpm).toBe(140);
    expect(startToday({ ...input, rungs: [40, 50, 60] }).bpm).toBe(60);
    expect(startToday({ ...input, rungs: [50] }).bpm).toBe(50);
  });

  it('is at the best or the rung below, where the best is no rung of this ladder', () => {
    const [low, high] = [RUNGS[20]!, RUNGS[21]!];
    expect(startToday({ ...input, best: high - 0.1 }).bpm).toBe(low);
    expect(startToday({ ...input, best: low + 0.1 }).bpm).toBe(low);
  });

  it('speaks of the marks where they say no more than the best', () => {
    const likely = highest(belief, input.prior, 1);
    expect(startToday({ ...input, best: likely }).reason).toContain('the highest where');
    expect(startToday({ ...input, best: 230 })).toEqual(startToday(input));
  });

  // Common practice, no source: three per cent lower for each whole week, at most twenty, and a rung at least.
  it.each([
    [7, 0.97],
    [13, 0.97],
    [14, 0.94],
    [27, 0.91],
    [42, 0.82],
    [49, 0.8],
    [400, 0.8],
  ])('after %i days is at most %d of what is likely by now, or of the best', (days, share) => {
    const likely = highest(belief, input.prior, days);
    for (const best of [null, RUNGS[24]!, 230]) {
      const top = Math.min(likely, best ?? 999);
      const bpm = Math.min(
        RUNGS[RUNGS.indexOf(top) - 1]!,
        RUNGS.findLast((rung) => rung <= top * share)!,
      );
      expect(startToday({ ...input, best, day: days })).toEqual({
        bpm,
        reason: `Start at ${bpm}: below ${top}, after ${days} days without this line.`,
      });
    }
  });

  it('is no lay-off before a week is over', () => {
    expect(startToday({ ...input, day: 6 }).reason).toContain('the highest where');
  });

  it('is a rung lower after a lay-off even where rungs are far apart', () => {
    const rungs = [60, 75, 76, 120];
    const { bpm } = startToday({ ...input, rungs, day: 1 });
    expect(bpm).toBe(76);
    expect(startToday({ ...input, rungs, day: 7 }).bpm).toBe(60);
    expect(startToday({ ...input, rungs: [74, 75, 120], day: 7 }).bpm).toBe(74);
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
