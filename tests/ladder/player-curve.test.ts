import { describe, expect, it } from 'vitest';
import { type PlayerCurve, markChances } from '../../src/ladder/settling/player-curve.ts';
import { tempoWhereClean } from './simulated-players.ts';

const CURVE: PlayerCurve = { threshold: 120, slope: 12, lapse: 0, tense: 0 };

describe('a curve', () => {
  it('has its nine-in-ten tempo where logit(0.9) = 2.197225 says (mathematics)', () => {
    expect(Math.log(tempoWhereClean(CURVE, 0.9) / 120)).toBeCloseTo(-2.197225 / 12, 6);
    const lapsing = { ...CURVE, lapse: 0.05 };
    expect(markChances(lapsing, tempoWhereClean(lapsing, 0.9)).clean).toBeCloseTo(0.9, 12);
    expect(tempoWhereClean({ ...CURVE, lapse: 0.2 }, 0.9)).toBe(0);
  });

  it('shares out all repetitions among the three marks', () => {
    const { clean, tense, missed } = markChances({ ...CURVE, lapse: 0.03, tense: 0.5 }, 120);
    expect(clean + tense + missed).toBeCloseTo(1, 12);
    expect(tense / (1 - 0.03 - clean)).toBeCloseTo(0.5, 12);
  });
});
