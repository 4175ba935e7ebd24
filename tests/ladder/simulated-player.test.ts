import { describe, expect, it } from 'vitest';
import { type Chance, normal, seeded } from '../../src/common/chance.ts';
import { startAt } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE, type LadderRule, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';
import { type PlayerCurve, markChances } from '../../src/ladder/settling/player-curve.ts';
import {
  LIVELY,
  type SimulatedPlayer,
  type Variability,
  nextDay,
  playLadder,
  simulateDays,
  simulatedPlayer,
} from '../../src/ladder/settling/simulated-player.ts';

/** Clean below 100, missed above: no chance left. */
const SHARP: PlayerCurve = { threshold: 100, slope: 1e6, lapse: 0, tense: 0 };
const SAME: Variability = { drift: 0, form: 0, learning: 0, ceiling: 400, fatigue: 0, rust: 0 };
const RULE: LadderRule = { ...DEFAULT_RULE, cleanUp: 99, missedDown: 99 };

/** Marks at one tempo, which the rule never leaves. */
function played(player: SimulatedPlayer, bpm: number, times: number, chance: Chance = () => 0.5) {
  return playLadder(player, startAt(bpm), RULE, [bpm], times, chance);
}
const marksOf = (...asked: Parameters<typeof played>): readonly Mark[] =>
  played(...asked).marks.map(({ mark }) => mark);

const thresholdAfter = (bpm: number, ceiling: number): number =>
  played(simulatedPlayer(SHARP, { ...SAME, learning: 0.01, ceiling }), bpm, 1).player.curve.threshold;

describe('a simulated player', () => {
  it('marks by the chances of the curve: clean first, then tense, then missed', () => {
    const curve: PlayerCurve = { threshold: 100, slope: 12, lapse: 0.04, tense: 0.5 };
    const { clean, tense } = markChances(curve, 104);
    const markAt = (u: number): Mark | undefined => marksOf(simulatedPlayer(curve), 104, 1, () => u)[0];
    expect(markAt(0)).toBe('clean');
    expect(markAt(clean - 1e-9)).toBe('clean');
    expect(markAt(clean)).toBe('tense');
    expect(markAt(clean + tense - 1e-9)).toBe('tense');
    expect(markAt(clean + tense)).toBe('missed');
    expect(markAt(0.999)).toBe('missed');
  });

  it('is steady where nothing is said about changes', () => {
    const after = nextDay(played(simulatedPlayer(SHARP), 99, 50).player, seeded(1));
    expect(after).toEqual(simulatedPlayer(SHARP));
  });

  it('tires with every repetition, and is rested the next day', () => {
    const player = simulatedPlayer(SHARP, { ...SAME, fatigue: 0.01 });
    // e^-0.01 x 100 is 99.005: clean at 99.01 once only, at 98.5 twice.
    expect(marksOf(player, 99.01, 2)).toEqual(['clean', 'missed']);
    const { marks, player: tired } = played(player, 98.5, 3);
    expect(marks.map(({ mark }) => mark)).toEqual(['clean', 'clean', 'missed']);
    expect(marks.every(({ bpm }) => bpm === 98.5)).toBe(true);
    expect(
      marksOf(
        nextDay(tired, () => 0.5),
        99.01,
        1,
      ),
    ).toEqual(['clean']);
  });

  it('has a form each day that is gone the day after', () => {
    const player = simulatedPlayer(SHARP, { ...SAME, form: 0.01 });
    // Box and Muller's method: half and half give -sqrt(2 ln 2), -1.1774.
    const low = nextDay(player, () => 0.5);
    expect(low.form).toBeCloseTo(0.01 * -Math.sqrt(2 * Math.LN2), 12);
    expect(low.curve.threshold).toBe(100);
    // 100 x e^-0.011774 is 98.83.
    expect(marksOf(low, 98.8, 1)).toEqual(['clean']);
    expect(marksOf(low, 98.9, 1)).toEqual(['missed']);
  });

  it('wanders from day to day, as far as the root of the days', () => {
    const player = simulatedPlayer(SHARP, { ...SAME, drift: 0.01 });
    const wander = (days: number): number => Math.log(nextDay(player, () => 0.5, days).curve.threshold / 100);
    expect(wander(1)).toBeCloseTo(0.01 * normal(() => 0.5), 12);
    expect(wander(9)).toBeCloseTo(0.03 * normal(() => 0.5), 12);
  });

  it('loses a little for each day without practice, up to thirty', () => {
    const player = simulatedPlayer(SHARP, { ...SAME, rust: 0.002 });
    const lost = (days: number): number => -Math.log(nextDay(player, seeded(1), days).curve.threshold / 100);
    expect([1, 2, 11, 31, 32, 300].map(lost).map((one) => Number(one.toFixed(9)))).toEqual([
      0, 0.002, 0.02, 0.06, 0.06, 0.06,
    ]);
  });

  it('learns from a clean repetition above four fifths of its threshold, less towards the ceiling', () => {
    expect(thresholdAfter(90, 400)).toBeCloseTo(101, 9);
    expect(thresholdAfter(80.01, 400)).toBeCloseTo(101, 9);
    expect(thresholdAfter(80, 400)).toBe(100);
    expect(thresholdAfter(60, 400)).toBe(100);
    // Missed.
    expect(thresholdAfter(101, 400)).toBe(100);
    // Half of the way: ln(ceiling / threshold) is 0.5.
    expect(thresholdAfter(90, 100 * Math.exp(0.5))).toBeCloseTo(100.5, 9);
    expect(thresholdAfter(90, 100)).toBe(100);
    expect(thresholdAfter(90, 50)).toBe(100);
  });

  it('goes on the next day where the ladder was left', () => {
    const curve: PlayerCurve = { threshold: 90, slope: 14, lapse: 0.02, tense: 0.3 };
    const rule: LadderRule = { ...DEFAULT_RULE, start: 61 };
    const rungs = rungsOf(rule);
    const run = simulateDays(curve, LIVELY, rule, 3, 12, seeded(4));
    const chance = seeded(4);
    let [player, climb] = [simulatedPlayer(curve, LIVELY), startAt(61)];
    const marks = [1, 2, 3].flatMap(() => {
      const day = playLadder(player, climb, rule, rungs, 12, chance);
      [player, climb] = [nextDay(day.player, chance), day.climb];
      return day.marks;
    });
    expect(run).toEqual({ climb, marks });
    expect(marks).toHaveLength(36);
    expect(marks[0]!.bpm).toBe(61);
    expect(new Set(marks.map(({ bpm }) => bpm)).size).toBeGreaterThan(3);
  });
});
