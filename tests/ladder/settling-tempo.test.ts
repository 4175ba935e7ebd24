import { chainStates } from '../../src/ladder/settling/rule-chain.ts';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/common/chance.ts';
import { startAt } from '../../src/ladder/rule/climb.ts';
import { type PlayerCurve, markChances } from '../../src/ladder/settling/player-curve.ts';
import { DEFAULT_RULE, type LadderRule } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { repetitionsBetween, settlingOf, settlingSentence } from '../../src/ladder/settling/settling-tempo.ts';
import { simulatedPlayer, playLadder } from '../../src/ladder/settling/simulated-player.ts';

const CURVE: PlayerCurve = { threshold: 120, slope: 12, lapse: 0, tense: 0 };

/** Steps that are small against the slope, which the closed forms suppose. */
const SMALL: LadderRule = {
  ...DEFAULT_RULE,
  missedDown: 1,
  step: { by: 'ratio', percent: 0.25 },
  fractions: true,
  floor: 60,
  top: 240,
};

/** The share of clean repetitions at the settling tempo itself. */
const cleanAtSettling = (rule: LadderRule, curve: PlayerCurve): number =>
  markChances(curve, settlingOf(rule, curve).tempo).clean;

describe('where a rule settles', () => {
  // H. Levitt, Transformed up-down methods in psychoacoustics, J. Acoust. Soc. Am. 49, 467-477 (1971):
  // N clean up, 1 missed down settles where p^N = 1/2. The four values are the published ones.
  const LEVITT: readonly [number, number][] = [
    [1, 0.5],
    [2, 0.707],
    [3, 0.794],
    [4, 0.841],
  ];

  it.each(LEVITT)('%i clean up, 1 missed down: Levitt 1971 by the exact chain', (cleanUp, share) => {
    const rule = { ...SMALL, cleanUp };
    expect(Math.abs(settlingOf(rule, CURVE).marks.clean - share)).toBeLessThan(0.005);
    expect(Math.abs(cleanAtSettling(rule, CURVE) - share)).toBeLessThan(0.005);
  });

  it.each(LEVITT)('%i clean up, 1 missed down: Levitt 1971 by simulation', (cleanUp, share) => {
    const rule = { ...SMALL, cleanUp };
    const { marks } = playLadder(simulatedPlayer(CURVE), startAt(110), rule, rungsOf(rule), 20_000, seeded(1971));
    const clean = marks.filter(({ mark }) => mark === 'clean').length / marks.length;
    // One standard error of 20,000 marks is at most 0.35 points.
    expect(Math.abs(clean - share)).toBeLessThan(0.012);
  });

  // Weighted up-down: C. Kaernbach, Perception & Psychophysics 49, 227-229 (1991), up/down = (1 - p)/p (from memory);
  // 1 up, 3 down is his 75 %.
  it.each([
    [1, 3, 0.75],
    [1, 1, 0.5],
    [1, 4, 0.8],
    [3, 1, 0.25],
  ])('1 clean up %i rungs, 1 missed down %i: Kaernbach 1991', (rungsUp, rungsDown, share) => {
    const rule = { ...SMALL, cleanUp: 1, rungsUp, rungsDown };
    expect(Math.abs(cleanAtSettling(rule, CURVE) - share)).toBeLessThan(0.005);
  });

  // The two together: p = (D / (U + D))^(1/N), algebra: 3 up, 1 rung and 2 rungs: 87.36 %.
  it.each([
    [3, 1, 2, 0.8736],
    [2, 1, 3, 0.866],
    [2, 2, 1, 0.5774],
  ])('%i clean up %i rungs, 1 missed down %i: the combined formula', (cleanUp, rungsUp, rungsDown, share) => {
    const rule = { ...SMALL, cleanUp, rungsUp, rungsDown };
    expect(Math.abs(cleanAtSettling(rule, CURVE) - share)).toBeLessThan(0.005);
  });

  it('depends on the size of the step, as M. Garcia-Perez, Vision Research 38, 1861 (1998) found', () => {
    const rule: LadderRule = { ...SMALL, cleanUp: 3, step: { by: 'ratio', percent: 35 } };
    const wide = settlingOf(rule, CURVE);
    const simulated = playLadder(simulatedPlayer(CURVE), startAt(109.35), rule, rungsOf(rule), 20_000, seeded(1998));
    const clean = simulated.marks.filter(({ mark }) => mark === 'clean').length / 20_000;
    expect(Math.abs(wide.marks.clean - 0.794)).toBeGreaterThan(0.015);
    expect(Math.abs(wide.marks.clean - clean)).toBeLessThan(0.015);
  });

  it('agrees with simply walking the chain for a long time, tense marks and lapses and all', () => {
    const rule: LadderRule = { ...DEFAULT_RULE, floor: 80, top: 160, start: 100 };
    const curve: PlayerCurve = { threshold: 118, slope: 9, lapse: 0.04, tense: 0.4 };
    const { marks } = playLadder(simulatedPlayer(curve), startAt(100), rule, rungsOf(rule), 60_000, seeded(3));
    const share = (mark: string): number => marks.filter((m) => m.mark === mark).length / marks.length;
    const exact = settlingOf(rule, curve);
    expect(Math.abs(exact.marks.clean - share('clean'))).toBeLessThan(0.01);
    expect(Math.abs(exact.marks.tense - share('tense'))).toBeLessThan(0.01);
    const meanLog = marks.reduce((sum, { bpm }) => sum + Math.log(bpm), 0) / marks.length;
    expect(Math.abs(Math.log(exact.tempo) - meanLog)).toBeLessThan(0.01);
    expect(exact.rungs.reduce((sum, rung) => sum + rung.share, 0)).toBeCloseTo(1, 9);
  });

  it('stays on the rungs it can reach when it moves two at a time', () => {
    const rule: LadderRule = { ...SMALL, step: { by: 'beats', bpm: 1 }, rungsUp: 2, rungsDown: 2, start: 60, top: 240 };
    const { rungs } = settlingOf(rule, CURVE);
    expect(rungs.filter(({ bpm, share }) => bpm % 2 === 1 && share > 1e-9)).toEqual([]);
  });

  it('is at the top with someone who never misses, and at the floor with a beginner', () => {
    expect(settlingOf(DEFAULT_RULE, { ...CURVE, threshold: 1e4, slope: 90 }).tempo).toBeCloseTo(239, -1);
    expect(settlingOf(DEFAULT_RULE, { ...CURVE, threshold: 5, slope: 90 }).tempo).toBeCloseTo(40, 0);
  });

  it('has shares for someone far too good for the ladder', () => {
    const rule: LadderRule = {
      ...SMALL,
      cleanUp: 1,
      missedDown: 4,
      step: { by: 'beats', bpm: 10 },
      floor: 40,
      top: 80,
    };
    const { rungs, tempo, low } = settlingOf(
      { ...rule, start: 40, target: 80 },
      { threshold: 240, slope: 100, lapse: 0, tense: 0 },
    );
    expect(rungs.map(({ share }) => Number(share.toFixed(6)))).toEqual([0, 0, 0, 0, 1]);
    expect(tempo).toBeCloseTo(80, 6);
    expect(low).toBe(80);
  });

  it('is never on rungs that it leaves for good', () => {
    // From the second of five rungs, two at a time: up to the top, and from there on every other rung.
    const five: LadderRule = {
      ...SMALL,
      cleanUp: 1,
      rungsUp: 2,
      rungsDown: 2,
      step: { by: 'beats', bpm: 10 },
      floor: 100,
      top: 140,
      start: 110,
      target: 140,
    };
    const { rungs } = settlingOf(five, CURVE);
    const shares = rungs.map(({ share }) => share);
    expect([shares[1], shares[3]]).toEqual([0, 0]);
    expect(shares[0]! + shares[2]! + shares[4]!).toBeCloseTo(1, 12);
  });

  it('is said in one sentence', () => {
    const player = { threshold: 85, slope: 12, lapse: 0.02, tense: 0.3 };
    expect(settlingSentence(DEFAULT_RULE, player)).toBe('About 8 of 10 clean in half an hour; in the long run 7.');
    expect(settlingSentence(DEFAULT_RULE, { ...player, tense: 0 })).toBe(
      'About 8 of 10 clean, in half an hour and in the long run.',
    );
  });
});

describe('expected repetitions', () => {
  it('are three a rung for someone who is always clean', () => {
    const sure = { ...CURVE, threshold: 1e6, slope: 40 };
    const rungs = rungsOf(DEFAULT_RULE);
    expect(repetitionsBetween(DEFAULT_RULE, sure, rungs[12]!, rungs[22]!)).toBeCloseTo(30, 6);
  });

  it('agree with simulation', () => {
    const rungs = rungsOf(DEFAULT_RULE);
    const chance = seeded(5);
    const counts = Array.from({ length: 300 }, () => {
      const { marks } = playLadder(simulatedPlayer(CURVE), startAt(rungs[20]!), DEFAULT_RULE, rungs, 400, chance);
      return marks.findIndex(({ bpm }) => bpm >= rungs[32]!);
    });
    const mean = counts.reduce((a, b) => a + b, 0) / counts.length;
    const exact = repetitionsBetween(DEFAULT_RULE, CURVE, rungs[20]!, rungs[32]!);
    expect(counts).not.toContain(-1);
    expect(Math.abs(mean / exact - 1)).toBeLessThan(0.05);
  });

  it('are none when already there', () => {
    expect(repetitionsBetween(DEFAULT_RULE, CURVE, 100, 90)).toBe(0);
    expect(repetitionsBetween(DEFAULT_RULE, CURVE, 100, 100)).toBe(0);
  });

  it('have no end for someone who gets there once in 10^300 years', () => {
    const slow: PlayerCurve = { threshold: 10, slope: 100, lapse: 0.02, tense: 0.3 };
    expect(repetitionsBetween({ ...DEFAULT_RULE, floor: 10, top: 400 }, slow, 300, 399)).toBe(Infinity);
  });

  it('count from the runs of the first repetition: none', () => {
    // Always clean, two clean up, one rung at a time: two repetitions a rung.
    const sure = { ...CURVE, threshold: 1e6, slope: 40 };
    const two: LadderRule = { ...DEFAULT_RULE, cleanUp: 2, missedDown: 3 };
    const rungs = rungsOf(two);
    expect(repetitionsBetween(two, sure, rungs[3]!, rungs[4]!)).toBeCloseTo(2, 9);
    expect(repetitionsBetween(two, sure, rungs[0]!, rungs.at(-1)!)).toBeCloseTo(2 * (rungs.length - 1), 6);
  });
});

describe('a settling on three rungs, worked out by hand', () => {
  const rule: LadderRule = {
    ...DEFAULT_RULE,
    cleanUp: 1,
    missedDown: 1,
    rungsUp: 1,
    rungsDown: 1,
    step: { by: 'beats', bpm: 20 },
    tenseDown: null,
    floor: 100,
    top: 140,
    start: 100,
    target: 140,
  };
  const player: PlayerCurve = { threshold: 118, slope: 5, lapse: 0.03, tense: 0.4 };
  const at = [100, 120, 140].map((bpm) => markChances(player, bpm));
  // A birth-and-death chain: the flow up from one rung is the flow down from the next (detailed balance).
  const weights = [1, at[0]!.clean / at[1]!.missed, (at[0]!.clean * at[1]!.clean) / (at[1]!.missed * at[2]!.missed)];
  const shares = weights.map((weight) => weight / weights.reduce((a, b) => a + b));
  const mean = (of: (bpm: number, i: number) => number): number =>
    [100, 120, 140].reduce((sum, bpm, i) => sum + shares[i]! * of(bpm, i), 0);
  const settling = () => settlingOf(rule, player);

  it('has the shares of its rungs, and how often each is clean', () => {
    settling().rungs.forEach(({ bpm, share, clean }, i) => {
      expect(bpm).toBe([100, 120, 140][i]);
      expect(share).toBeCloseTo(shares[i]!, 12);
      expect(clean).toBeCloseTo(at[i]!.clean, 12);
    });
  });

  it('has the mean and the spread over the logarithm, and the shares of the marks', () => {
    const { tempo, spread, marks } = settling();
    const centre = mean((bpm) => Math.log(bpm));
    expect(Math.log(tempo)).toBeCloseTo(centre, 12);
    expect(spread).toBeCloseTo(Math.sqrt(mean((bpm) => (Math.log(bpm) - centre) ** 2)), 12);
    expect(marks.clean).toBeCloseTo(
      mean((_, i) => at[i]!.clean),
      12,
    );
    expect(marks.tense).toBeCloseTo(
      mean((_, i) => at[i]!.tense),
      12,
    );
    expect(marks.missed).toBeCloseTo(
      mean((_, i) => at[i]!.missed),
      12,
    );
  });

  it('has eight of ten repetitions between its low and its high', () => {
    expect(settling()).toMatchObject({ low: 100, high: 140 });
    // Someone who is nearly always on the middle rung.
    const { rungs, low, high } = settlingOf(rule, { threshold: 119.99, slope: 60, lapse: 0, tense: 0 });
    expect(rungs[1]!.share).toBeCloseTo(0.5, 2);
    expect([low, high]).toEqual([100, 140]);
    const steep: LadderRule = { ...rule, cleanUp: 20, missedDown: 20 };
    expect(settlingOf(steep, { threshold: 120, slope: 60, lapse: 0, tense: 0 })).toMatchObject({ low: 120, high: 120 });
  });

  it('is a chain of so many states: for each rung no run, each clean, missed and tense run', () => {
    expect(chainStates(rule)).toBe(3);
    expect(chainStates({ ...rule, cleanUp: 3, missedDown: 2 })).toBe(12);
    expect(chainStates({ ...rule, cleanUp: 3, missedDown: 2, tenseDown: 3 })).toBe(18);
  });

  it('is reckoned up to 20,000 states: of a finer ladder it is said that it is not', () => {
    // Tenths of a beat from 10 to 400 are 3,901 rungs; `standside ladder` has whole steps, 391 rungs of 39 at most.
    const fine = { step: { by: 'beats', bpm: 0.1 }, fractions: true, floor: 10, top: 400, missedDown: 10 } as const;
    const curve = { threshold: 120, slope: 12, lapse: 0.02, tense: 0.3 };
    expect(chainStates({ ...rule, ...fine, cleanUp: 10 })).toBe(3_901 * 19);
    expect(settlingSentence({ ...rule, ...fine, cleanUp: 10 }, curve)).toBe(
      'This ladder has too many rungs to say where it settles.',
    );
    expect(settlingSentence(rule, curve)).toMatch(/^About \d+ of 10 clean/);
  });
});
