import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Climb, afterMark, nudged, startAt, withMarked } from '../../src/ladder/rule/climb.ts';
import { DEFAULT_RULE, type LadderRule, type Mark } from '../../src/ladder/rule/ladder-rule.ts';
import { rungsOf } from '../../src/ladder/rule/rungs.ts';

const at = (bpm: number, more: Partial<Climb> = {}): Climb => ({
  bpm,
  cleanRun: 0,
  missedRun: 0,
  best: null,
  ...more,
});

describe('one mark', () => {
  const rule: LadderRule = {
    ...DEFAULT_RULE,
    cleanUp: 3,
    missedDown: 2,
    rungsUp: 2,
    rungsDown: 3,
    step: { by: 'beats', bpm: 10 },
    floor: 40,
    top: 120,
    start: 40,
    target: 120,
  };
  const rungs = rungsOf(rule);

  it.each<[string, Climb, Mark, Climb]>([
    ['clean lengthens the clean run', at(80), 'clean', at(80, { cleanRun: 1 })],
    ['clean ends the missed run', at(80, { missedRun: 1 }), 'clean', at(80, { cleanRun: 1 })],
    ['the last clean one goes up and makes a best', at(80, { cleanRun: 2 }), 'clean', at(100, { best: 80 })],
    ['a higher best is kept', at(80, { cleanRun: 2, best: 90 }), 'clean', at(100, { best: 90 })],
    ['a lower best is passed', at(80, { cleanRun: 2, best: 70 }), 'clean', at(100, { best: 80 })],
    ['missed lengthens the missed run', at(80), 'missed', at(80, { missedRun: 1 })],
    ['missed ends the clean run', at(80, { cleanRun: 2 }), 'missed', at(80, { missedRun: 1 })],
    ['the last missed one goes down', at(80, { missedRun: 1, best: 80 }), 'missed', at(50, { best: 80 })],
    ['tense ends the clean run', at(80, { cleanRun: 2, best: 70 }), 'tense', at(80, { tenseRun: 1, best: 70 })],
    ['tense ends the missed run', at(80, { missedRun: 1 }), 'tense', at(80, { tenseRun: 1 })],
    [
      'the second tense one in a row goes down one rung',
      at(80, { tenseRun: 1, best: 80 }),
      'tense',
      at(70, { best: 80 }),
    ],
    ['clean ends the tense run', at(80, { tenseRun: 1 }), 'clean', at(80, { cleanRun: 1 })],
    ['missed ends the tense run', at(80, { tenseRun: 1 }), 'missed', at(80, { missedRun: 1 })],
    ['two tense ones at the floor begin anew', at(40, { tenseRun: 1 }), 'tense', at(40)],
    ['the top is not left', at(120, { cleanRun: 2 }), 'clean', at(120, { best: 120 })],
    ['nor the floor', at(40, { missedRun: 1 }), 'missed', at(40)],
  ])('%s', (_, before, mark, after) => {
    expect(afterMark(before, mark, rule, rungs)).toEqual(after);
  });

  it('tense, over and over, only holds the rung where the rule says so', () => {
    const holds: LadderRule = { ...rule, tenseDown: null };
    const after = Array.from({ length: 5 }).reduce<Climb>((climb) => afterMark(climb, 'tense', holds, rungs), at(80));
    expect(after).toEqual(at(80));
  });

  it('from before tense ones were counted moves and counts as it did then', () => {
    const marked = { bpm: 80, cleanUp: 3, missedDown: 2, next: 80 };
    const then = withMarked(withMarked(at(80), { ...marked, mark: 'tense' }), { ...marked, mark: 'tense' });
    expect(then).toEqual(at(80));
  });

  it('or a step by hand begins the runs anew and keeps the best', () => {
    const climb = at(80, { cleanRun: 2, best: 70 });
    expect(nudged(climb, 1, rungs)).toEqual(at(90, { best: 70 }));
    expect(nudged({ ...climb, missedRun: 1 }, -1, rungs)).toEqual(at(70, { best: 70 }));
  });

  it('is counted from a start without runs', () => {
    expect(startAt(60)).toEqual(at(60));
    expect(startAt(60, 90)).toEqual(at(60, { best: 90 }));
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
      fc.property(rules, moves, fc.nat(), (rule, sequence, from) => {
        const rungs = rungsOf(rule);
        const past: Climb[] = [startAt(rungs[from % rungs.length]!)];
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

describe('Levitt 1971, worked example of figure 4', () => {
  // As given in the tests of a public library of his method; there the level falls after a positive answer,
  // here the tempo rises after a clean one, so the sign is turned round.
  const ANSWERS = '1 1 0 0 0 0 1 1 0 0 0 1 1 1 1 1 0 0 0 1 1 0 0 0'.split(' ');
  const rule: LadderRule = { ...DEFAULT_RULE, cleanUp: 1, missedDown: 1, step: { by: 'beats', bpm: 1 } };
  const levels: number[] = [];
  ANSWERS.reduce((climb, answer) => {
    levels.push(100 - climb.bpm);
    return afterMark(climb, answer === '1' ? 'clean' : 'missed', rule, rungsOf(rule));
  }, startAt(100));

  it('turns where the paper turns', () => {
    const turns = levels.flatMap((_, i) => (i > 0 && ANSWERS[i] !== ANSWERS[i - 1] ? [i] : []));
    expect(turns.map((i) => i + 1)).toEqual([3, 7, 9, 12, 17, 20, 22]);
    expect(turns.map((i) => levels[i])).toEqual([-2, 2, 0, 3, -2, 1, -1]);
  });
});
