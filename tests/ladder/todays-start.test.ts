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

const below = (bpm: number, rungs = RUNGS): number => rungs[Math.max(rungs.indexOf(bpm) - 2, 0)]!;

describe("today's start", () => {
  it('is two rungs below the highest where nine of ten are clean, by the estimate', () => {
    const { bpm, reason } = startToday(input);
    const cells = weightsOn(belief, input.prior, 1);
    const safe = RUNGS[RUNGS.indexOf(bpm) + 2]!;
    const next = RUNGS[RUNGS.indexOf(bpm) + 3]!;
    expect(chanceOfClean(cells, MARKING(safe))).toBeGreaterThanOrEqual(0.9);
    expect(chanceOfClean(cells, MARKING(next))).toBeLessThan(0.9);
    expect(reason).toBe(`Start at ${bpm}: two rungs below ${safe}, where 9 of 10 are clean.`);
  });

  it('is at the best where that lies further below what is safe, and never above it', () => {
    const best = RUNGS[20]!;
    const likely = highest(belief, input.prior, 1);
    expect(startToday({ ...input, best })).toEqual({
      bpm: best,
      reason: `Start at ${best}: your best, below ${likely}, where 9 of 10 are clean.`,
    });
    // A best at what is safe, or above it, is no place to begin the day.
    expect(startToday({ ...input, best: likely }).bpm).toBe(below(likely));
    expect(startToday({ ...input, best: 230 })).toEqual(startToday(input));
  });

  it('is a tenth above the fastest that was clean at most where no rung was held yet', () => {
    const reached = RUNGS[15]!;
    const most = RUNGS.findLast((rung) => rung <= reached * 1.1)!;
    expect(startToday({ ...input, reached })).toMatchObject({
      bpm: most,
      reason: expect.stringContaining(`${most}: a tenth above the fastest that was clean, below `) as string,
    });
    expect(startToday({ ...input, reached: 230 })).toEqual(startToday(input));
  });

  it('is what is safe itself where something was played today already', () => {
    const likely = highest(belief, input.prior, 1);
    const at = (more: object) => startToday({ ...input, warm: true, ...more });
    expect(at({})).toEqual({ bpm: likely, reason: `Start at ${likely}: where 9 of 10 are clean.` });
    expect(at({ best: RUNGS[20]! })).toEqual(startToday({ ...input, best: RUNGS[20]! }));
    const family = { mean: Math.log(100), sd: 0.05 };
    const cold = startToday({ ...input, belief: NO_BELIEF, family });
    const warm = at({ belief: NO_BELIEF, family });
    expect(cold.bpm).toBe(below(warm.bpm));
    expect(warm.reason).toContain('not played yet; where its other keys and articulations point');
  });

  it('is lower after a lay-off, the lower the longer, and says so', () => {
    const [now, week, month, year] = [1, 8, 31, 400].map((day) => startToday({ ...input, day }));
    expect(week!.bpm).toBeLessThanOrEqual(now!.bpm);
    expect(month!.bpm).toBeLessThan(week!.bpm);
    expect(year!.bpm).toBeLessThanOrEqual(month!.bpm);
    expect(month!.reason).toMatch(/^Start at \d+: below \d+, after 31 days without this line\.$/u);
  });

  it("is the exercise's own where nothing is known", () => {
    const rule = { ...DEFAULT_RULE, start: 62.5 };
    // Rungs at 60, 62, 64: of two as near the lower.
    expect(startToday({ ...input, rule, rungs: [60, 62, 64], belief: NO_BELIEF })).toEqual({
      bpm: 62,
      reason: "Start at 62: the exercise's own start, not played yet.",
    });
  });

  it('is below where its other keys and articulations point, weighed against its author, for a line not played', () => {
    const rule = { ...DEFAULT_RULE, start: 100, target: 160 };
    const start = (mean: number, sd = 0.05) =>
      startToday({ ...input, rule, belief: NO_BELIEF, family: { mean: Math.log(mean), sd } });
    const { bpm, reason } = start(130);
    expect(reason).toBe(`Start at ${bpm}: not played yet; below where its other keys and articulations point.`);
    expect(bpm).toBeGreaterThan(105);
    expect(bpm).toBeLessThan(130);
    // Less sure of them, it leans more on its author's start.
    expect(start(60, 0.5).bpm).toBeGreaterThan(start(60, 0.05).bpm);
    // Never beyond the target.
    expect(start(229).bpm).toBeLessThanOrEqual(160);
  });

  it('is moved by other exercises by a tenth at most, and never beyond the target', () => {
    const rule = { ...DEFAULT_RULE, start: 100, target: 104 };
    const start = (mean: number, target = 160) =>
      startToday({ ...input, rule: { ...rule, target }, belief: NO_BELIEF, others: { mean: Math.log(mean), sd: 0.2 } });
    expect(start(300).bpm).toBeGreaterThan(100);
    expect(start(300).bpm).toBeLessThanOrEqual(110);
    expect(start(300, 104).bpm).toBeLessThanOrEqual(104);
    expect(start(20).bpm).toBeLessThan(100);
    expect(start(20).bpm).toBeGreaterThanOrEqual(86);
    expect(start(300).reason).toMatch(/^Start at \d+: not played yet; a little above its own start, by your other ex/u);
    expect(start(20).reason).toContain('a little below its own start');
    // About where the author has it already.
    expect(start(122).bpm).toBe(100);
  });

  it('is the lowest rung where none is safe, and near the highest where all are', () => {
    expect(startToday({ ...input, rungs: [140, 150, 160] })).toEqual({
      bpm: 140,
      reason: 'Start at 140: the lowest rung.',
    });
    expect(startToday({ ...input, rungs: [30, 40, 50, 60] }).bpm).toBe(40);
    expect(startToday({ ...input, rungs: [50] }).bpm).toBe(50);
  });

  it('is at the best or the rung below, where the best is no rung of this ladder', () => {
    const [low, high] = [RUNGS[20]!, RUNGS[21]!];
    expect(startToday({ ...input, best: high - 0.1 }).bpm).toBe(low);
    expect(startToday({ ...input, best: low + 0.1 }).bpm).toBe(low);
  });

  it('speaks of the marks where they say no more than the best', () => {
    const likely = highest(belief, input.prior, 1);
    expect(startToday({ ...input, best: likely }).reason).toContain('where 9 of 10');
    expect(startToday({ ...input, best: 230 })).toEqual(startToday(input));
  });

  // Common practice, no source: three per cent lower for each whole week, at most twenty, and two rungs at least.
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
        below(top),
        RUNGS.findLast((rung) => rung <= top * share)!,
      );
      expect(startToday({ ...input, best, day: days })).toEqual({
        bpm,
        reason: `Start at ${bpm}: below ${top}, after ${days} days without this line.`,
      });
    }
  });

  it('is no lay-off before a week is over', () => {
    expect(startToday({ ...input, day: 6 }).reason).toContain('two rungs below');
  });

  it('is two rungs lower after a lay-off even where rungs are far apart', () => {
    const rungs = [60, 70, 75, 76, 120];
    expect(startToday({ ...input, rungs, day: 1 }).bpm).toBe(70);
    expect(startToday({ ...input, rungs, day: 7 }).bpm).toBe(70);
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
