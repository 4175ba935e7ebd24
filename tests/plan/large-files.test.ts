/** One file of less than a megabyte costs no start more than a moment, and is told in a few sentences. */
import { describe, expect, it } from 'vitest';
import { troubleLine } from '../../src/plan/file/place-in-file.ts';
import { parseRoutine } from '../../src/plan/file/routine-file.ts';

const rows = (count: number, row: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => row(i)).join('');

const said = (text: string): readonly string[] => {
  const read = parseRoutine(text, 'a.yaml', () => ({ trouble: 'it is not there.' }));
  return 'troubles' in read ? read.troubles.map(troubleLine) : [];
};

const list = (count: number, item: string): string =>
  `routine: A\nexercises:\n  one: {keys: [${rows(count, () => item)}]}\n`;
const exercises = (count: number): string => `routine: A\nexercises:\n${rows(count, (i) => `  e${i}: {}\n`)}`;
const part = (i: number): string => `  - part: P${i}\n    blocks: [${rows(100, () => '{one: 1},')}]\n`;
const blocks = (count: number): string => `routine: A\nexercises: {one: {}}\nparts:\n${rows(count / 100, part)}`;

describe('what a file holds too much of is told in one sentence', () => {
  it.each([
    ['300,000 mistakes', list(300_000, '1, '), "line 3, column 9: 'keys' holds 300000 entries; at most 1000 may stand"],
    [
      '80,000 unknown names',
      `routine: A\n${rows(80_000, (i) => `k${i}: 1\n`)}`,
      'line 1, column 1: the file holds 80001',
    ],
    ['25,000 blocks', blocks(25_000), 'line 1, column 1: the file holds more than 20000 values; spread it over'],
    ['400 blocks', blocks(400), 'line 3, column 1: the routine has 400 blocks; at most 300 may stand in a day.'],
    ['30,000 exercises', exercises(30_000), "line 2, column 1: 'exercises' holds 30000 entries; at most 1000"],
  ])('%s', (_name, text, sentence) => {
    expect(text.length).toBeLessThan(1_000_000);
    expect(said(text)).toMatchObject([expect.stringContaining(`a.yaml, ${sentence}`)]);
  });

  it('exercises that come in from other files too', () => {
    const others = { 'b.yaml': exercises(600), 'c.yaml': exercises(600).replaceAll('  e', '  f') };
    const read = parseRoutine('routine: A\ninclude: [b.yaml, c.yaml]\n', 'a.yaml', (name) => ({
      text: others[name as keyof typeof others],
    }));
    expect('troubles' in read && read.troubles.map(troubleLine)).toMatchObject([
      expect.stringContaining(
        'c.yaml, line 2, column 1: with what it includes the routine has more than 1000 exercises.',
      ),
    ]);
  });
});

describe('mistakes', () => {
  it.each([
    ['of the schema', `routine: A\n${rows(900, (i) => `k${i}: 1\n`)}`, "there is no 'k0' in a routine file"],
    ['of doubled names', `routine: A\n${rows(90_000, () => 'a: 1\n')}`, "'a' stands here a second time"],
    ['of the text', `routine: A\n${rows(9000, () => '- %a\n')}`, 'a colon with a space after it is missing'],
  ])('%s are named up to fifty, and the others counted', (_name, text, first) => {
    const lines = said(text);
    expect(lines).toHaveLength(51);
    expect(lines[0]).toContain(first);
    expect(lines[50]).toMatch(/from here on there are \d+ more mistakes; mend those before first\.$/);
  });

  it('are all named where there are fifty-one', () => {
    expect(said(`routine: A\n${rows(51, (i) => `k${i}: 1\n`)}`)).toHaveLength(51);
    expect(said(`routine: A\n${rows(51, (i) => `k${i}: 1\n`)}`)[50]).toContain("no 'k50'");
  });
});

it('a file as large as any player writes is read', () => {
  expect(said(exercises(1000))).toEqual([]);
  expect(said(blocks(300))).toEqual([]);
});
