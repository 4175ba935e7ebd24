import { describe, expect, it } from 'vitest';
import { type Mutant, folderOf, nameOf } from './mutant.ts';
import { nearness } from './own-tests-first.ts';
import { type Tried, survivorsOf, tableOf } from './report.ts';
import { sampled } from './sample.ts';

const at = (fileName: string, line: number, from: number, to: number): Mutant => ({
  fileName,
  mutatorName: 'EqualityOperator',
  replacement: 'a >= b',
  location: { start: { line, column: from }, end: { line, column: to } },
});

/** 700, 200 and 100 of a thousand. */
const groupOf = (i: number): string => (i < 700 ? 'large' : i < 900 ? 'middle' : 'small');

describe('a sample of mutants', () => {
  const all = Array.from({ length: 1000 }, (_, i) => i);

  it('is spread over the groups in proportion, each chosen once', () => {
    const chosen = sampled(all, groupOf, 105, 4);
    expect(new Set(chosen).size).toBe(chosen.length);
    expect(chosen.filter((i) => groupOf(i) === 'large')).toHaveLength(74);
    expect(chosen.filter((i) => groupOf(i) === 'middle')).toHaveLength(21);
    expect(chosen.filter((i) => groupOf(i) === 'small')).toHaveLength(11);
  });

  it('is the same for the same seed and another for another', () => {
    expect(sampled(all, groupOf, 50, 4)).toEqual(sampled(all, groupOf, 50, 4));
    expect(sampled(all, groupOf, 50, 4)).not.toEqual(sampled(all, groupOf, 50, 5));
  });

  it('chooses every one as often', () => {
    const times = all.map(() => 0);
    for (let seed = 0; seed < 300; seed += 1) for (const i of sampled(all, () => 0, 100, seed)) times[i]! += 1;
    // Thirty on average; one standard deviation of the binomial distribution is 5.2.
    expect(Math.min(...times)).toBeGreaterThan(8);
    expect(Math.max(...times)).toBeLessThan(56);
  });

  it('is all there is where more was asked for', () => {
    expect(sampled(all, groupOf, 9999, 1).toSorted((a, b) => a - b)).toEqual(all);
  });
});

describe('a mutant', () => {
  it('has a name of its own, and a folder', () => {
    const one = at('src/ladder/wall/wall.ts', 3, 5, 9);
    expect(nameOf(one)).not.toBe(nameOf({ ...one, replacement: 'false' }));
    expect(nameOf(one)).not.toBe(nameOf(at('src/ladder/wall/wall.ts', 3, 5, 12)));
    expect(folderOf(one.fileName)).toBe('src/ladder');
  });

  it.each([
    ['/x/src/ladder/wall/wall.ts', '/x/tests/ladder/wall.test.ts', 2],
    ['src/ladder/wall/wall.ts', 'tests/ladder/wall-days.test.ts', 1],
    ['src/ladder/wall/wall.ts', 'tests/plan/wall.test.ts', 0],
    ['src/common/days.ts', 'tests/plan/days.test.ts', 0],
  ])('of %s is nearest to the tests of its own file: %s', (source, test, near) => {
    expect(nearness(source, test)).toBe(near);
  });
});

const fate = (status: string, one: Mutant): Tried => ({ ...one, status });

describe('the report', () => {
  const tried = [
    fate('Killed', at('src/plan/b.ts', 1, 1, 2)),
    fate('Survived', at('src/plan/b.ts', 2, 3, 8)),
    fate('NoCoverage', at('src/ladder/a.ts', 9, 1, 4)),
    fate('Timeout', at('src/ladder/a.ts', 1, 1, 2)),
    fate('Killed', at('src/ladder/a.ts', 1, 1, 2)),
    fate('RuntimeError', at('src/ladder/a.ts', 1, 1, 2)),
  ];

  it('has a row for each folder, where a test that never ends has noticed too, and an error says nothing', () => {
    expect(tableOf(tried, folderOf).split('\n')).toEqual([
      '            tried  killed  survived  no coverage  timeouts  errors   score',
      'src/ladder      4       1         0            1         1       1  66.7 %',
      'src/plan        2       1         1            0         0       0  50.0 %',
      'all             6       2         1            1         1       1  60.0 %',
    ]);
    expect(tableOf([], folderOf).split('\n')[1]).toMatch(/^all +0 +0 +0 +0 +0 +0 *$/u);
  });

  it('names what was not noticed by its place, with what was changed', () => {
    const text = 'first\n  if (a > b\n     && c) return;\n';
    const long: Tried = {
      ...fate('Survived', at('src/plan/b.ts', 2, 7, 12)),
      location: { start: { line: 2, column: 7 }, end: { line: 3, column: 10 } },
      replacement: `${'x'.repeat(200)}`,
    };
    const short = fate('NoCoverage', at('src/plan/b.ts', 2, 7, 12));
    expect(survivorsOf([long, short, fate('Killed', at('src/plan/b.ts', 1, 1, 2))], () => text).split('\n')).toEqual([
      'src/plan/b.ts:2:7 EqualityOperator, NoCoverage',
      '    a > b',
      ' -> a >= b',
      'src/plan/b.ts:2:7 EqualityOperator',
      '    a > b && c',
      ` -> ${'x'.repeat(90)} …`,
    ]);
  });
});
