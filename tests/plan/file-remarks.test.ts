/** What a file promises and cannot hold. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { remarksOn } from '../../src/plan/file/file-remarks.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';
import { packageRoot } from '../../src/audio/package-folder.ts';
import { loadRoutines } from '../../src/runtime/files/routine-reader.ts';

function remarks(exercise: string): readonly string[] {
  const parsed = parseRoutine(`exercises: {x: {${exercise}}}`, 'a.yaml', () => ({ trouble: 'none' }));
  if ('troubles' in parsed) throw new Error(JSON.stringify(parsed.troubles));
  return remarksOn(parsed.routine);
}

describe('a remark on a file', () => {
  it.each([
    [
      'work: clock, click: {silent bars: {play: 2, silent: 2}}',
      "'x': silent bars never come, for it goes by the clock, and there the click is not struck.",
    ],
    [
      'breaths: 8, click: {silent chance: 0.3}',
      "'x': silent bars never come, for it goes by its breaths, and there the click is not struck.",
    ],
    ['click: {silent chance: 0}', "'x': a silent chance of 0 never silences a beat."],
    ['rotate: fifths, keys: [G]', "'x': nothing comes round, for it has one key and one way of tonguing."],
    [
      'notes: 4, pattern: 1 2 3 4 5 4 3 2 1 2 3 4 5 4 3 2 | 1, articulations: triple',
      "'x', triple: The quick notes stand in fours, where triple has no three to tongue: it comes out as TKTK, " +
        'which is double.',
    ],
  ])('is made where it cannot hold what it says: %s', (exercise, sentence) => {
    expect(remarks(exercise)).toEqual([sentence]);
  });

  it.each([
    'bars: 2, click: {silent bars: {play: 2, silent: 2}}',
    'bars: 2, click: {silent bars: {play: 64, silent: 1}}',
    'click: {silent chance: 0.1}',
    'work: clock, click: {voice: bell}',
    'rotate: fifths, keys: [G, C]',
    'rotate: fifths, articulations: [slurred, single]',
    'rotate: {order: own, fingerings: yes}',
    'keys: [G]',
    'notes: 4, pattern: 1 2 3 4 5 4 3 2 1 2 3 4 5 4 3 2 | 1, articulations: double',
    'material: A book, articulations: triple',
  ])('is not made where it holds it: %s', (exercise) => {
    expect(remarks(exercise)).toEqual([]);
  });

  it('is not needed for the packaged routines', () => {
    const { routines, collections } = loadRoutines([join(packageRoot(), 'routines')]);
    expect([...routines, ...collections].flatMap(({ routine }) => remarksOn(routine))).toEqual([]);
  });
});
