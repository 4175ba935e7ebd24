import { describe, expect, it } from 'vitest';
import {
  type PlayerCurve,
  logit,
  markChances,
  markChancesAt,
  tenseGap,
} from '../../src/ladder/settling/player-curve.ts';
import { tempoWhereClean } from './simulated-players.ts';

const CURVE: PlayerCurve = { threshold: 120, slope: 12, lapse: 0, tense: 0 };

describe('a curve', () => {
  it('has its nine-in-ten tempo where logit(0.9) = 2.197225 says (mathematics)', () => {
    expect(logit(0.9)).toBeCloseTo(2.197225, 6);
    expect(Math.log(tempoWhereClean(CURVE, 0.9) / 120)).toBeCloseTo(-2.197225 / 12, 6);
    const lapsing = { ...CURVE, lapse: 0.05 };
    expect(markChances(lapsing, tempoWhereClean(lapsing, 0.9)).clean).toBeCloseTo(0.9, 12);
    expect(tempoWhereClean({ ...CURVE, lapse: 0.2 }, 0.9)).toBe(0);
  });

  it('is half clean at the threshold, and falls as its slope says', () => {
    expect(markChances(CURVE, 120)).toEqual({ clean: 0.5, tense: 0, missed: 0.5 });
    // 1 / (1 + 0.9^12) and 1 / (1 + 1.1^12): arithmetic.
    expect(markChances(CURVE, 108).clean).toBeCloseTo(0.7798, 4);
    expect(markChances(CURVE, 132).clean).toBeCloseTo(0.2416, 4);
  });

  it('shares out all repetitions among the three marks', () => {
    const { clean, tense, missed } = markChances({ ...CURVE, lapse: 0.03, tense: 0.5 }, 120);
    expect(clean + tense + missed).toBeCloseTo(1, 12);
    expect(clean).toBeCloseTo(0.97 / 2, 12);
    expect(tense / (1 - 0.03 - clean)).toBeCloseTo(0.5, 12);
  });

  it('turns the share of tense at the threshold into logits, and back', () => {
    // A third: ln((1 + 1/3) / (1 - 1/3)) = ln 2.
    expect(tenseGap(1 / 3)).toBeCloseTo(Math.LN2, 12);
    expect(tenseGap(0)).toBe(0);
    expect(markChancesAt(0, 0, Math.LN2).tense).toBeCloseTo(2 / 3 - 1 / 2, 12);
  });

  it('has a lapse at any tempo, and is certain far away', () => {
    expect(markChancesAt(900, 0.04, 1)).toEqual({ clean: 0.96, tense: 0, missed: 0.04 });
    const never = markChancesAt(-900, 0.04, 1);
    expect(never.clean).toBe(0);
    expect(never.tense).toBe(0);
    expect(never.missed).toBeCloseTo(1, 12);
  });
});
