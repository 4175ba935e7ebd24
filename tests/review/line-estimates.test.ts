import { describe, expect, it } from 'vitest';
import { dayNumber } from '../../src/common/days.ts';
import { foldAll } from '../../src/journal/journal-fold.ts';
import { lineRule } from '../../src/plan/rotation/multiple-tonguing-steps.ts';
import { estimateOf, learnAllLines } from '../../src/ladder/speed/speed-knowledge.ts';
import { bestsWithEstimates } from '../../src/review/line-estimates.ts';
import { writer } from '../journal/entries.ts';
import { EXERCISE } from '../practice/rehearsal.ts';

describe('the bests with estimates', () => {
  const write = writer();
  const of = { exercise: EXERCISE.id, articulation: 'slurred', key: 'C' };
  const clean = Array.from({ length: 12 }, () => write.mark('clean', 92, 92, of));
  const missed = Array.from({ length: 8 }, () => write.mark('missed', 104, 104, of));
  const gone = write.mark('clean', 63, 63, { exercise: 'no longer there', key: 'F' });
  const fold = foldAll([...clean, ...missed, gone]);
  const DAY = dayNumber('2026-11-25');
  const rows = bestsWithEstimates(fold, new Map([[EXERCISE.id, EXERCISE]]), DAY);
  const known = rows.find(({ exercise }) => exercise === EXERCISE.id)!;
  const other = rows.find(({ exercise }) => exercise !== EXERCISE.id)!;

  it('say what the screen says, with interval and marks', () => {
    const rule = lineRule(EXERCISE, 'slurred');
    const asked = { line: of, notesPerBeat: fold.lines.values().next().value!.notesPerBeat, rule, day: DAY };
    const { bpm, low, high } = estimateOf(learnAllLines(fold.lines.values()), asked);
    expect(known.estimate).toMatchObject({ marks: 20 });
    expect(known.estimate!.bpm).toBeCloseTo(bpm, 0);
    expect(known.estimate!.low).toBeCloseTo(low, 0);
    expect(known.estimate!.high).toBeCloseTo(high, 0);
    expect(known.estimate!.said).toMatch(/^Safe at \d+ \(between \d+ and \d+\)$|^still finding out \(20 marks\)$/);
    expect(known.estimate!.bpm).toBeGreaterThan(85);
    expect(known.estimate!.bpm).toBeLessThan(104);
  });

  it('claim nothing of one mark, though its exercise is gone', () => {
    expect(other.estimate).toMatchObject({ marks: 1, said: 'still finding out (1 mark)' });
  });
});
