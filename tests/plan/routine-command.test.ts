import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { addExercisesCommand } from '../../src/cli/usage/exercises.ts';
import { addRoutineCommand } from '../../src/cli/usage/routine.ts';
import type { Exercise } from '../../src/plan/routine/exercise.ts';
import type { Plan } from '../../src/plan/today/plan-items.ts';
import { Trouble } from '../../src/common/trouble.ts';

let data = '';
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'standside-'));
});
afterEach(() => {
  vi.restoreAllMocks();
  process.exitCode = 0;
  rmSync(data, { recursive: true });
});

interface Ran {
  readonly out: string;
  readonly err: string;
}

/** Runs a command as the program does, in an empty data folder. */
async function run(...words: readonly string[]): Promise<Ran> {
  const said = { out: '', err: '' };
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => ((said.out += String(text)), true));
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => ((said.err += String(text)), true));
  const program = new Command('standside').option('--data <dir>').exitOverride();
  addRoutineCommand(program);
  addExercisesCommand(program);
  await program.parseAsync(['--data', data, ...words], { from: 'user' });
  return said;
}

const troubleOf = async (...words: readonly string[]): Promise<string> => {
  const error: unknown = await run(...words).then(
    () => null,
    (thrown: unknown) => thrown,
  );
  if (!(error instanceof Trouble)) throw new Error(`no trouble: ${String(error)}`);
  return error.message;
};

describe('standside routine', () => {
  it('check tells everything that is wrong with a file, and fails', async () => {
    const path = join(data, 'bad.yaml');
    writeFileSync(path, 'minuts: 5\nexercises: {a: {tempo: 0}}\n');
    const { err } = await run('routine', 'check', path);
    expect(err.trim().split('\n')).toEqual([
      "bad.yaml, line 1, column 1: there is no 'minuts' in a routine file; what may stand there is routine, " +
        'about, instrument, include, defaults, exercises, pools, parts, breaks, limits, order, for, level.',
      "bad.yaml, line 2, column 24: 'tempo' is 0; write beats per minute from 10 to 400.",
    ]);
    expect(process.exitCode).toBe(1);
  });

  it('check without a file looks at all of them', async () => {
    const { out } = await run('routine', 'check', '--json');
    const checked = JSON.parse(out) as { sound: boolean }[];
    expect(checked.length).toBeGreaterThanOrEqual(5);
    expect(checked.every(({ sound }) => sound)).toBe(true);
  });

  it('check takes a bare name as show and fit do, of a broken file too', async () => {
    expect((await run('routine', 'check', 'horn-ten-minutes')).out).toMatch(/^sound {2}horn-ten-minutes: /);
    mkdirSync(join(data, 'routines'));
    writeFileSync(join(data, 'routines', 'two.yaml'), 'minuts: 5\n');
    expect((await run('routine', 'check', 'two')).err).toContain("two.yaml, line 1, column 1: there is no 'minuts'");
    expect(await troubleOf('routine', 'check', 'horn-ten-minuts')).toBe(
      'There is no routine "horn-ten-minuts"; did you mean \'horn-ten-minutes\'?',
    );
  });

  it('check has a word on tonguing that does not go into the notes, and calls the file sound', async () => {
    const path = join(data, 'tongue.yaml');
    writeFileSync(
      path,
      'exercises:\n  runs: {notes: 4, pattern: 1 2 3 4 5 4 3 2 1 2 3 4 5 4 3 2 | 1, articulations: [double, triple]}\n',
    );
    const { out } = await run('routine', 'check', path);
    expect(out.split('\n').slice(1, 3)).toEqual([
      "  'runs', triple: The quick notes stand in fours, where triple has no three to tongue: it comes out as " +
        'TKTK, which is double.',
      '',
    ]);
    expect(process.exitCode ?? 0).toBe(0);
    expect((await run('routine', 'check')).out).not.toContain('The quick notes');
  });

  it('show prints parts, blocks and minutes', async () => {
    const { out } = await run('routine', 'show', 'horn-ten-minutes');
    expect(out).toContain('Warm-up, 4 min');
    expect(out).toMatch(/Tones in the middle +3 min {2}warm-up/);
    expect(await troubleOf('routine', 'show', 'horn-ten-minuts')).toBe(
      "There is no routine 'horn-ten-minuts'; did you mean 'horn-ten-minutes'?",
    );
  });

  it('new writes a sound routine into the own folder, once', async () => {
    await run('routine', 'new', 'mine', '--instrument', 'euphonium', '--title', 'Mine: "all"');
    const path = join(data, 'routines', 'mine.yaml');
    expect(readFileSync(path, 'utf8')).toContain('instrument: euphonium');
    expect((await run('routine', 'check', path)).out).toMatch(/^sound {2}mine: 2 parts, 5 blocks/);
    expect(await troubleOf('routine', 'new', 'mine')).toContain('is there already; write over it with --force.');
    await run('routine', 'new', 'mine', '--force');
    expect(await troubleOf('routine', 'new', 'mine2', '--instrument', 'flut')).toContain("did you mean 'flute'?");
    expect(await troubleOf('routine', 'new', join(data, 'mine'))).toContain('end the name with .yaml.');
    expect(await troubleOf('routine', 'new', join(data, 'nowhere', 'mine.yaml'))).toContain(
      'cannot be written: its path leads nowhere.',
    );
    expect(existsSync(join(data, 'mine'))).toBe(false);
  });

  it('fit explains the plan, and gives the same one again', async () => {
    const { out } = await run('routine', 'fit', 'cornet-daily', '--minutes', '25');
    expect(out).toMatch(/^ {2}Breath and buzz .* warm-up, always first/);
    expect(out).toContain('25 minutes: ');
    const plans = [
      await run('routine', 'fit', 'cornet-daily', '--minutes', '25', '--json'),
      await run('routine', 'fit', 'cornet-daily', '--minutes', '25', '--json'),
    ];
    expect(plans[0]?.out).toBe(plans[1]?.out);
    const plan = JSON.parse(plans[0]?.out ?? '') as Plan;
    expect(plan.items.reduce((sum, { minutes }) => sum + minutes, 0)).toBeLessThanOrEqual(25);
  });

  it.each([
    [['--minutes', '0'], '0 minutes cannot be planned; write a number from 1 to 600.'],
    [['--minutes', '9999'], '9999 minutes cannot be planned; write a number from 1 to 600.'],
    [['--minutes', 'some'], "--minutes is 'some'; it must be a number like 25."],
    [['--minutes', '-5'], '-5 minutes cannot be planned; write a number from 1 to 600.'],
    [['--minutes', '20', '--order', 'random'], '--order is "random"; write blocked or interleaved.'],
    [['--minutes', '20', '--parts', 'figners'], 'There is no part "figners"; did you mean \'fingers\'?'],
    [['--minutes', '20', '--seed', 'x'], "--seed is 'x'; it must be a whole number from 0 to 999999999."],
  ])('fit %j says what would be right', async (words, said) => {
    expect(await troubleOf('routine', 'fit', 'cornet-daily', ...words)).toContain(said);
  });
});

describe('standside exercises', () => {
  it('lists every exercise with all that may be asked of it', async () => {
    const { out } = await run('exercises', '--json');
    const exercises = JSON.parse(out) as (Exercise & { routine: string })[];
    const five = exercises.find(({ id }) => id === 'five-notes');
    expect(five).toMatchObject({ routine: 'cornet-daily', kind: 'technique', bars: 2, notesPerBeat: 4 });
    expect(five?.keys).toHaveLength(12);
    expect((await run('exercises')).out).toMatch(
      /five-notes +Five-note study \(technique\)\n +60 to 132 · slurred, single, double/,
    );
  });
});
