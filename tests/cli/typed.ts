/** The program as a shell runs it, in this process: words in, what it wrote and its exit code out. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, vi } from 'vitest';

export interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Small, and with nothing of the packaged routines, which may change. */
const ROUTINE = `
routine: Two small things
instrument: cornet
exercises:
  quick-turn:
    title: Quick turn
    meter: 2/4
    pattern: 1 2 3 2 1 2 3 2
    keys: [C, Bb]
    articulations: [slurred, double]
    tempo: 60 -> 120
parts:
  - part: Work
    blocks:
      - quick-turn: 5
`;

const LINE = '"kind":"mark","exercise":"quick-turn","articulation":"slurred","key":"C"';
const RULE = '"beat":"1/4","notesPerBeat":4,"cleanUp":3,"missedDown":2,"by":"player"';

/** Three clean at 60 hold the rung; lines as the first version wrote them. */
const JOURNAL = [
  `{"v":1,"id":"01a213a6-aca0-7000-8000-02a229896c63","at":"2026-11-25T18:00:20.000+01:00","day":"2026-11-25",` +
    `${LINE},"mark":"clean","bpm":60,"next":60,${RULE}}`,
  `{"v":1,"id":"01a213a6-fac0-7000-8000-02011e149d68","at":"2026-11-25T18:00:40.000+01:00","day":"2026-11-25",` +
    `${LINE},"mark":"clean","bpm":60,"next":60,${RULE}}`,
  `{"v":1,"id":"01a213a7-48e0-7000-8000-03c6a675c99f","at":"2026-11-25T18:01:00.000+01:00","day":"2026-11-25",` +
    `${LINE},"mark":"clean","bpm":60,"next":62,${RULE}}`,
];

/** A data folder with one routine and three marks, as long as each test lasts. */
export function eachWithData(): () => string {
  let data = '';
  beforeEach(() => {
    data = mkdtempSync(join(tmpdir(), 'standside-typed-'));
    mkdirSync(join(data, 'routines'));
    writeFileSync(join(data, 'routines', 'mine.yaml'), ROUTINE);
    writeFileSync(join(data, 'journal.jsonl'), `${JOURNAL.join('\n')}\n`);
  });
  afterEach(() => rmSync(data, { recursive: true, force: true }));
  return () => data;
}

/** What a run of the program leaves behind in its process, put back afterwards. */
function surroundings(): () => void {
  const { argv } = process;
  const data = process.env['STANDSIDE_DATA'];
  const fetch = Object.getOwnPropertyDescriptor(globalThis, 'fetch');
  const terminals = [process.stdin.isTTY, process.stdout.isTTY] as const;
  const listeners = process.stdout.listeners('error');
  return () => {
    process.argv = argv;
    process.exitCode = 0;
    [process.stdin.isTTY, process.stdout.isTTY] = terminals;
    if (data !== undefined) process.env['STANDSIDE_DATA'] = data;
    if (fetch) Object.defineProperty(globalThis, 'fetch', fetch);
    for (const one of process.stdout.listeners('error')) {
      if (!listeners.includes(one)) process.stdout.off('error', one as () => void);
    }
    vi.restoreAllMocks();
  };
}

/** Runs the program from its first line, with input and output that are no terminal. */
export const standside = (...words: readonly string[]): Promise<Said> => run(words, false);

/** As if in a terminal; for what has to fail before anything is drawn on it. */
export const standsideInTerminal = (...words: readonly string[]): Promise<Said> => run(words, true);

async function run(words: readonly string[], inTerminal: boolean): Promise<Said> {
  const said = { out: '', err: '' };
  const putBack = surroundings();
  try {
    process.argv = ['node', 'standside', ...words];
    process.exitCode = 0;
    process.stdin.isTTY = inTerminal;
    process.stdout.isTTY = inTerminal;
    delete process.env['STANDSIDE_DATA'];
    vi.spyOn(process.stdout, 'write').mockImplementation((text) => ((said.out += String(text)), true));
    vi.spyOn(process.stderr, 'write').mockImplementation((text) => ((said.err += String(text)), true));
    vi.resetModules();
    await import('../../src/cli/main.ts');
    return { code: Number(process.exitCode), ...said };
  } finally {
    putBack();
  }
}
