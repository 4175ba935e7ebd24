import * as fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { seeded } from '../../src/common/chance.ts';

import {
  NO_BELIEF,
  weightsOn,
  chanceOfClean,
  markingOf,
  speedEstimate,
  tenseShareOf,
  weakPrior,
} from '../../src/ladder/speed/speed-estimate.ts';
import { CURVE_KINDS, LOG_TEMPOS, likelihoods, logitOfClean } from '../../src/ladder/speed/estimate-grid.ts';
import { logit, markChancesAt } from '../../src/ladder/settling/player-curve.ts';
import { type PlayedOn, afterMarks } from './histories.ts';
import { tempoWhereClean, watched } from './simulated-players.ts';

const MARKING = markingOf(0.3);
const PRIOR = weakPrior({ start: 90 });

const markArbitrary = fc.record({
  day: fc.constant(0),
  bpm: fc.integer({ min: 40, max: 208 }),
  mark: fc.constantFrom('clean' as const, 'tense' as const, 'missed' as const),
});

const said = (mark: PlayedOn['mark'], bpm: number, times: number, day = 0): readonly PlayedOn[] =>
  Array.from({ length: times }, () => ({ day, bpm, mark }));

describe('the speed estimate of known simulated players', () => {
  const chance = seeded(20_260);
  // The target is for 200; three times as many, so that luck (one standard error 1.6 points) decides less.
  const seen = Array.from({ length: 600 }, () => {
    const { player, belief, prior, day } = watched(chance);
    const truth = tempoWhereClean(player.curve, 0.9);
    const { bpm, low, high } = speedEstimate(belief, prior, day);
    return { covered: low <= truth && truth <= high, error: Math.abs(bpm / truth - 1) };
  });

  it('covers the truth with its 80 % interval for 75 to 85 % of the players', () => {
    const covered = seen.filter((one) => one.covered).length / seen.length;
    expect(covered).toBeGreaterThanOrEqual(0.75);
    expect(covered).toBeLessThanOrEqual(0.85);
  });

  it('is off by less than 4 % after 60 marks, in the median', () => {
    const errors = seen.map(({ error }) => error).sort((a, b) => a - b);
    expect(errors[300]).toBeLessThan(0.04);
  });
});

/** Written anew for the library: the share of clean at a tempo, given the nine-in-ten tempo, slope and lapses. */
const cleanShare = (bpm: number, speed: number, slope: number, lapse: number): number =>
  (1 - lapse) / (1 + Math.exp(-slope * (speed - Math.log(bpm)) - logit(0.9 / (1 - lapse))));

const weightOf = (has: (kind: (typeof CURVE_KINDS)[number]) => boolean): number =>
  CURVE_KINDS.filter(has).reduce((sum, { weight }) => sum + weight, 0);

describe('against outside references', () => {
  it("gives the QUEST+ library's posterior (jsquest-plus, after Watson 2017) for the same marks", async () => {
    vi.spyOn(console, 'log').mockImplementation(() => undefined); // The library says its version on import.
    const { default: Quest } = await import('jsquest-plus');
    const tempos = [88, 92, 97, 100, 104, 110];
    const slopes = [...new Set(CURVE_KINDS.map(({ slope }) => slope))];
    const lapses = [...new Set(CURVE_KINDS.map(({ lapse }) => lapse))];
    const prior = LOG_TEMPOS.map((speed) => Math.exp(-0.5 * ((speed - PRIOR.mean) / PRIOR.sd) ** 2));
    const total = prior.reduce((a, b) => a + b, 0);
    const quest = new Quest({
      psych_func: [cleanShare, (...at: Parameters<typeof cleanShare>) => 1 - cleanShare(...at)],
      stim_samples: [tempos],
      psych_samples: [LOG_TEMPOS, slopes, lapses],
      priors: Quest.set_prior([
        prior.map((p) => p / total),
        slopes.map((slope) => weightOf((kind) => kind.slope === slope)),
        lapses.map((lapse) => weightOf((kind) => kind.lapse === lapse)),
      ]),
    });
    const chance = seeded(4);
    const marks = Array.from({ length: 24 }, (): PlayedOn => {
      const bpm = tempos[Math.floor(chance() * tempos.length)]!;
      return { day: 0, bpm, mark: chance() < cleanShare(bpm, Math.log(96), 14, 0.02) ? 'clean' : 'missed' };
    });
    for (const { bpm, mark } of marks) quest.update(bpm, mark === 'clean' ? 0 : 1);
    const theirs = quest.comb_PF_params.reduce((sum, [speed], i) => sum + speed! * quest.normalized_posteriors[i]!, 0);
    // No tense marks at all: two outcomes, as theirs.
    const cells = weightsOn(afterMarks(markingOf(0), NO_BELIEF, marks), PRIOR, 0);
    const ours = cells.values.reduce((sum, w, i) => sum + w * LOG_TEMPOS[Math.floor(i / CURVE_KINDS.length)]!, 0);
    expect(ours).toBeCloseTo(theirs, 6);
    const most = Math.max(...quest.normalized_posteriors);
    expect(Math.max(...cells.values)).toBeCloseTo(most, 6);
  }, 20_000);

  it('has for one clean mark the closed form: prior times the logistic curve, cell by cell (Bayes)', () => {
    const cells = weightsOn(afterMarks(MARKING, NO_BELIEF, said('clean', 100, 1)), PRIOR, 0).values;
    const bare = LOG_TEMPOS.flatMap((speed) =>
      CURVE_KINDS.map(
        (kind) =>
          kind.weight *
          Math.exp(-0.5 * ((speed - PRIOR.mean) / PRIOR.sd) ** 2) *
          markChancesAt(logitOfClean(speed, kind, 100), kind.lapse, 0).clean,
      ),
    );
    const total = bare.reduce((a, b) => a + b, 0);
    bare.forEach((weight, cell) => expect(cells[cell]).toBeCloseTo(weight / total, 8));
  });

  it('without a mark is the prior: a normal distribution whose 80 % interval is 1.2816 deviations each way', () => {
    // 1.2816 is the normal distribution's 90 % point, any table.
    const { bpm, low, high } = speedEstimate(NO_BELIEF, { mean: Math.log(100), sd: 0.3 }, 0);
    expect(bpm).toBeCloseTo(100, 0);
    expect(Math.log(high / bpm)).toBeCloseTo(1.2816 * 0.3, 2);
    expect(Math.log(bpm / low)).toBeCloseTo(1.2816 * 0.3, 2);
  });

  it('keeps in its fast rows what the ordered-logit model says', () => {
    const rows = likelihoods(100, 0.8);
    [0, 700, 1000, 1559].forEach((cell) => {
      const kind = CURVE_KINDS[cell % CURVE_KINDS.length]!;
      const z = logitOfClean(LOG_TEMPOS[Math.floor(cell / CURVE_KINDS.length)]!, kind, 100);
      const exact = markChancesAt(z, kind.lapse, 0.8);
      expect(rows.clean[cell]).toBeCloseTo(Math.max(exact.clean, 1e-6), 9);
      expect(rows.tense[cell]).toBeCloseTo(Math.max(exact.tense, 1e-6), 9);
      expect(rows.missed[cell]).toBeCloseTo(Math.max(exact.missed, 1e-6), 9);
    });
  });
});

describe('the estimate moves as a player would expect', () => {
  const base = [...said('clean', 92, 6), ...said('missed', 104, 2)];
  const bpmAfter = (more: readonly PlayedOn[]): number =>
    speedEstimate(afterMarks(MARKING, NO_BELIEF, [...base, ...more]), PRIOR, 0).bpm;

  it('counts tense between clean and missed', () => {
    const [clean, tense, missed] = [
      bpmAfter(said('clean', 98, 2)),
      bpmAfter(said('tense', 98, 2)),
      bpmAfter(said('missed', 98, 2)),
    ];
    expect(clean).toBeGreaterThan(tense);
    expect(tense).toBeGreaterThan(missed);
  });

  it('is hardly moved by one miss far below: that is a lapse', () => {
    expect(bpmAfter(said('missed', 60, 1)) / bpmAfter([])).toBeGreaterThan(0.93);
  });

  it('grows wider with days, and old marks give way to new ones', () => {
    const belief = afterMarks(MARKING, NO_BELIEF, base);
    const width = (day: number): number => {
      const { low, high } = speedEstimate(belief, PRIOR, day);
      return high / low;
    };
    expect(width(60)).toBeGreaterThan(width(1) * 1.03);
    const slower = [...said('missed', 92, 8, 90), ...said('clean', 80, 12, 90)];
    const now = speedEstimate(afterMarks(MARKING, belief, slower), PRIOR, 90).bpm;
    const sameDay = speedEstimate(
      afterMarks(
        MARKING,
        belief,
        slower.map((mark) => ({ ...mark, day: 0 })),
      ),
      PRIOR,
      0,
    ).bpm;
    expect(now).toBeLessThan(sameDay);
  });

  it('says nothing from impossible tempos', () => {
    const impossible = [0, -3, Number.NaN, 1e9, Number.POSITIVE_INFINITY].flatMap((bpm) => said('clean', bpm, 3));
    expect(afterMarks(MARKING, NO_BELIEF, impossible)).toEqual(NO_BELIEF);
  });

  it('never changes a belief in place, so undoing is keeping the one before', () => {
    fc.assert(
      fc.property(fc.array(markArbitrary, { maxLength: 30 }), markArbitrary, (marks, extra) => {
        const before = afterMarks(MARKING, NO_BELIEF, marks);
        const copy = structuredClone(before);
        afterMarks(MARKING, before, [{ ...extra, day: 3 }]);
        expect(before).toEqual(copy);
      }),
      { numRuns: 40 },
    );
  });

  it('is the same for marks one by one and all at once', () => {
    fc.assert(
      fc.property(fc.array(markArbitrary, { maxLength: 60 }), (marks) => {
        const dated = marks.map((mark, i) => ({ ...mark, day: Math.floor(i / 7) * 2 }));
        const one = dated.reduce((belief, mark) => afterMarks(MARKING, belief, [mark]), NO_BELIEF);
        const all = afterMarks(MARKING, NO_BELIEF, dated);
        expect(speedEstimate(one, PRIOR, 20).bpm / speedEstimate(all, PRIOR, 20).bpm).toBeCloseTo(1, 9);
      }),
      { numRuns: 40 },
    );
  });

  it('stays a tempo on the grid whatever is marked', () => {
    fc.assert(
      fc.property(fc.array(markArbitrary, { maxLength: 200 }), (marks) => {
        const { bpm, low, high } = speedEstimate(afterMarks(MARKING, NO_BELIEF, marks), PRIOR, 1);
        expect(low).toBeGreaterThan(7);
        expect(low).toBeLessThanOrEqual(bpm);
        expect(bpm).toBeLessThanOrEqual(high);
        expect(high).toBeLessThan(520);
      }),
      { numRuns: 40 },
    );
  });

  it('says that a clean repetition is less likely the faster it is', () => {
    const cells = weightsOn(afterMarks(MARKING, NO_BELIEF, base), PRIOR, 0);
    const shares = [60, 80, 100, 120].map((bpm) => chanceOfClean(cells, MARKING(bpm)));
    expect(shares).toEqual(shares.toSorted((a, b) => b - a));
  });
});

it('learns how often a player says tense', () => {
  expect(tenseShareOf({ tense: 0, missed: 1000 })).toBeLessThan(0.02);
  expect(tenseShareOf({ tense: 600, missed: 400 })).toBeGreaterThan(0.35);
});
