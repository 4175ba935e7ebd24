/** The built program, the player's data and a routine short enough for a journey. */
import { execFile } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Entry } from '../../src/diary/entry.ts';
import { type Size, type Terminal, openTerminal } from './terminal.ts';

export const ROOT = new URL('../..', import.meta.url).pathname;
/** Another build of the program may be looked at: `STANDSIDE_ROOT=/path/of/a/checkout npm run journey`. */
const MAIN = join(process.env['STANDSIDE_ROOT'] ?? ROOT, 'dist', 'cli', 'main.js');

/** One short bar and one to breathe in, fast: a repetition takes about a second. */
const QUICK = `
routine: For a journey
exercises:
  quick-turn:
    title: Quick turn
    meter: 2/4
    pattern: 1 2 3 2 1 2 3 2
    keys: [C, Bb]
    articulations: [single]
    tempo: 200 -> 240
    step: 3%
    up: 3
    down: 2
`;

export interface Sitting {
  /** The player's data folder. */
  readonly data: string;
  readonly journal: string;
  readonly entries: () => readonly Entry[];
  /** The same without what came round: which key was played is remembered beside each first mark of it. */
  readonly marked: () => readonly Entry[];
  /** A terminal that is closed after the test. */
  readonly terminal: (size: Size, env?: Readonly<Record<string, string>>) => Promise<Terminal>;
}

/** Puts a routine of the player's own into the data folder, in place of one of that name. */
export const writeRoutine = ({ data }: Sitting, name: string, text: string): void =>
  writeFileSync(join(data, 'routines', `${name}.yaml`), text);

/** 'standside' as the shell calls it, on the journey's own data. */
export const standside = (sitting: Sitting, words = ''): string =>
  `${process.execPath} ${MAIN} --data ${sitting.data} ${words}`.trim();

/**
 * Gives a journey a fresh data folder with the short routine; its terminals and the folder are gone afterwards.
 * Journeys run side by side, so nothing of theirs is shared.
 */
export const inSitting =
  <Row extends readonly unknown[]>(journey: (sitting: Sitting, ...row: Row) => Promise<void>) =>
  async (...row: Row): Promise<void> => {
    const data = mkdtempSync(join(tmpdir(), 'standside-journey-'));
    const journal = join(data, 'journal.jsonl');
    mkdirSync(join(data, 'routines'));
    writeFileSync(join(data, 'routines', 'journey.yaml'), QUICK);
    const terminals: Terminal[] = [];
    const entries = (): readonly Entry[] =>
      readFileSync(journal, 'utf8')
        .split('\n')
        .filter(Boolean)
        .map((line) => JSON.parse(line) as Entry);
    const terminal: Sitting['terminal'] = async (size, env) => {
      const one = await openTerminal(size, data, env);
      terminals.push(one);
      return one;
    };
    try {
      const marked = (): readonly Entry[] => entries().filter(({ kind }) => kind !== 'draw');
      await journey({ data, journal, entries, marked, terminal }, ...row);
    } finally {
      await Promise.all(terminals.map((one) => one.close()));
      // The program may still be putting its things away after its terminal was closed.
      rmSync(data, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
    }
  };

export interface Outcome {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs a command without a terminal and without input. */
export const withoutTerminal = (args: readonly string[]): Promise<Outcome> =>
  new Promise((resolve) => {
    const child = execFile(process.execPath, [MAIN, ...args], { encoding: 'utf8' }, (error, stdout, stderr) => {
      resolve({ code: error ? Number(error.code ?? -1) : 0, stdout, stderr });
    });
    child.stdin?.end();
  });
