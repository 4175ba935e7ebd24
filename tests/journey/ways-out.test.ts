import { execFileSync, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect } from 'vitest';
import { itWith } from '../programs.ts';
import { mark } from './marking.ts';
import { type Sitting, inSitting, standside } from './program.ts';
import { LARGE, SMALL, type Terminal, eventually, isAlive, leftWith } from './terminal.ts';

const it = itWith('tmux', 'pgrep');

/** Starts a line and lets it sound, after noting how the terminal was. */
async function playing(sitting: Sitting, words = '--silent') {
  const terminal = await sitting.terminal(SMALL);
  await terminal.type('echo before');
  await terminal.until(/^before$/m);
  const before = await terminal.manners();
  await terminal.type(standside(sitting, `practice quick-turn ${words}`));
  await terminal.until('READY');
  await terminal.press('Space');
  await mark(terminal, 'clean');
  const [pid] = await terminal.children();
  return { terminal, before, pid: pid ?? 0 };
}

/** The shell's screen is back as it was, with the prompt below it, and nothing of the program's. */
async function givenBack(
  terminal: Terminal,
  before: Awaited<ReturnType<Terminal['manners']>>,
  code: number,
): Promise<void> {
  const screen = await terminal.until(leftWith(code));
  expect(screen).toMatch(/^before$/m);
  expect(screen).not.toMatch(/clean today/);
  expect(await terminal.manners()).toEqual(before);
}

/** The direct children of a process. */
function below(parent: number): readonly number[] {
  try {
    return execFileSync('pgrep', ['-P', `${parent}`], { encoding: 'utf8' })
      .split('\n')
      .filter(Boolean)
      .map(Number);
  } catch {
    return [];
  }
}

const SIGNALS = [
  ['SIGTERM', 143],
  ['SIGHUP', 129],
  ['SIGINT', 130],
  ['SIGQUIT', 131],
] as const;

describe('the terminal is given back as it was found', () => {
  it.concurrent.each([
    ['q', 0],
    ['C-c', 0],
  ] as const)(
    'on %s',
    inSitting(async (sitting, key: string, code: number) => {
      const { terminal, before } = await playing(sitting);
      expect(await terminal.manners()).toMatchObject({ alternateScreen: true, cursorShown: false });
      await terminal.press(key);
      await givenBack(terminal, before, code);
    }),
  );

  it.concurrent.each(SIGNALS)(
    'on %s',
    inSitting(async (sitting, signal: NodeJS.Signals, code: number) => {
      const { terminal, before, pid } = await playing(sitting);
      process.kill(pid, signal);
      await givenBack(terminal, before, code);
      expect(sitting.marked()).toHaveLength(1);
      expect(existsSync(join(sitting.data, 'standside.lock'))).toBe(false);
    }),
  );

  it.concurrent(
    'on Ctrl-Z, and the picture is whole again after fg',
    inSitting(async (sitting) => {
      const { terminal, before } = await playing(sitting);
      await terminal.press('C-z');
      await terminal.until(/left 1\d\d ›$/m);
      const { alternateScreen, cursorShown, lineSettings } = await terminal.manners();
      expect({ alternateScreen, cursorShown, lineSettings }).toEqual(before);
      await terminal.type('fg');
      await terminal.until('1 of 1 clean today');
      await terminal.until('Quick turn');
      expect(await terminal.manners()).toMatchObject({ alternateScreen: true, cursorShown: false });
      await terminal.press('q');
      await givenBack(terminal, before, 0);
    }),
  );

  it.concurrent(
    'with the sound process gone too',
    inSitting(async (sitting) => {
      const { terminal, before, pid } = await playing(sitting, '');
      // Without a device the process that looks for one is started again and again.
      await eventually(() => below(pid).length === 1, 'the sound process runs');
      const sound = below(pid);
      await terminal.press('q');
      await givenBack(terminal, before, 0);
      await eventually(() => !sound.some(isAlive), 'the sound process ends');
    }),
  );
});

describe('the window', () => {
  it.concurrent(
    'may change its size while playing',
    inSitting(async (sitting) => {
      const { terminal } = await playing(sitting);
      await terminal.resize(LARGE);
      await terminal.until(/^.{90,}$/m);
      await mark(terminal, 'clean');
      await terminal.resize(SMALL);
      await terminal.untilGone(/^.{81,}$/m);
      await terminal.until('2 of 2 clean today');
      await terminal.press('q');
      await terminal.until(leftWith(0));
    }),
  );

  it.concurrent(
    'may be closed: every mark is kept, and nothing goes on running',
    inSitting(async (sitting) => {
      const { terminal, pid } = await playing(sitting);
      await terminal.close();
      await eventually(() => !isAlive(pid), 'the program ends');
      expect(sitting.marked()).toMatchObject([{ kind: 'mark', mark: 'clean' }]);
    }),
  );
});

describe('a second standside', () => {
  it.concurrent(
    'on the same data says so and touches nothing',
    inSitting(async (sitting) => {
      const { terminal, pid } = await playing(sitting);
      const second = await sitting.terminal(SMALL);
      await second.type(standside(sitting, '--silent'));
      const screen = await second.until(leftWith(1));
      expect(screen).toContain(`standside is already running on this data (process ${pid}); leave that one first`);
      expect((await second.manners()).alternateScreen).toBe(false);
      await mark(terminal, 'clean');
      expect(sitting.marked()).toHaveLength(2);
      await terminal.press('q');
      await terminal.until(leftWith(0));
      await second.type(standside(sitting, '--silent'));
      await second.until('Today');
      await second.press('q');
      await second.until(leftWith(0));
    }),
  );

  it.concurrent(
    'may print the bests meanwhile',
    inSitting(async (sitting) => {
      await playing(sitting);
      const child = spawn('bash', ['-c', standside(sitting, 'bests')], { stdio: ['ignore', 'pipe', 'inherit'] });
      let out = '';
      for await (const part of child.stdout) out += String(part);
      expect(out).toMatch(/quick.turn\s+single\s+C/i);
    }),
  );
});
