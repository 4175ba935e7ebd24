/** The whole program: how soon it is there, what it costs, how soon it answers. */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startServer } from './live/server.ts';
import { cpuSeconds, residentMegabytes } from './process.ts';
import { type Row, median } from './row.ts';
import { tenYears, writeJournal } from './ten-years.ts';
import { type Watched, watch } from './terminal.ts';

async function inFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'standside-bench-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Start {
  /** From the shell's handing over to the first frame. */
  readonly wall: number;
  /** CPU that the program had used by then: what a busy machine does not change much. */
  readonly cpu: number;
}

async function firstFrame(folder: string): Promise<Start> {
  const program = watch(['--data', folder]);
  const started = await program.startedAt();
  const wall = (await program.seen(/Today/, started)) / 1000;
  const cpu = cpuSeconds(program.processes().slice(0, 1));
  await program.close();
  return { wall, cpu };
}

async function several<T>(times: number, measure: () => Promise<T>): Promise<readonly T[]> {
  const figures: T[] = [];
  for (let turn = 0; turn < times; turn += 1) figures.push(await measure());
  return figures;
}

export const benchStart = (): Promise<readonly Row[]> =>
  inFolder(async (folder) => {
    const empty = await several(7, () => firstFrame(folder));
    const old = join(folder, 'old.jsonl');
    writeJournal(old, tenYears(200_000));
    copyFileSync(old, join(folder, 'journal.jsonl'));
    const uncached = await firstFrame(folder);
    const cached = await several(5, () => firstFrame(folder));
    return [
      {
        what: 'from node to the first frame (median of 7)',
        figure: median(empty.map(({ wall }) => wall)),
        unit: 's',
        below: 0.6,
      },
      { what: 'CPU used until then', figure: median(empty.map(({ cpu }) => cpu)), unit: 's', below: null },
      {
        what: 'the same with a ten-year journal (median of 5)',
        figure: median(cached.map(({ wall }) => wall)),
        unit: 's',
        below: 0.6,
      },
      { what: 'CPU used until then', figure: median(cached.map(({ cpu }) => cpu)), unit: 's', below: null },
      { what: 'the same without its cache, once', figure: uncached.wall, unit: 's', below: null },
    ];
  });

/** Marks each repetition when it is due, until the time is up; gives how long each mark took to show. */
async function play(program: Watched, until: number): Promise<readonly number[]> {
  const answers: number[] = [];
  let from = performance.now();
  while (performance.now() < until) {
    await program.seen(/BREATHE · mark\?|MARK\?/, from);
    const pressed = program.press('c');
    answers.push(await program.seen(/clean today/, pressed));
    from = performance.now();
  }
  return answers;
}

/** The help page and back again: each time the whole screen changes. */
const answersToHelp = (program: Watched): Promise<readonly number[]> =>
  several(20, async () => {
    const shown = await program.seen(/take the last mark back/, program.press('?'));
    await program.seen(/READY/, program.press('?'));
    return shown;
  });

/** One minute of practice on a five-note study at 96, with its sound, marked clean each time. */
export const benchPractice = (seconds: number): Promise<readonly Row[]> =>
  inFolder(async (folder) => {
    const server = await startServer();
    const program = watch(['--data', folder, 'practice', 'five-notes', '--tempo', '96'], server.env);
    await program.seen(/READY/);
    const help = await answersToHelp(program);
    const start = program.press(' ');
    await program.seen(/COUNT-IN/, start);
    const processes = program.processes();
    if (processes.length < 2) throw new Error('the sound process is missing');
    return await measured(program, processes, seconds, help).finally(async () => {
      await program.close();
      server.stop();
    });
  });

/** The figures of a stretch of practice; a sound process that was started anew meanwhile is said to have been. */
async function measured(
  program: Watched,
  processes: readonly number[],
  seconds: number,
  help: readonly number[],
): Promise<readonly Row[]> {
  const [before, from] = [cpuSeconds(processes), performance.now()];
  const marks = await play(program, from + seconds * 1000);
  if (program.processes().some((pid) => !processes.includes(pid)))
    throw new Error('the sound process was lost meanwhile: measure again on a quieter machine');
  const share = (cpuSeconds(processes) - before) / ((performance.now() - from) / 1000);
  const memory = residentMegabytes(processes);
  return [
    {
      what: `CPU of ${processes.length} processes over ${seconds} s of practice`,
      figure: share * 100,
      unit: '%',
      below: 10,
    },
    { what: 'memory of both', figure: memory, unit: 'MB', below: 250 },
    { what: 'key to changed screen, help (median of 20)', figure: median(help), unit: 'ms', below: 50 },
    { what: 'the same, slowest', figure: Math.max(...help), unit: 'ms', below: null },
    {
      what: `key to changed screen, a mark kept on disk (median of ${marks.length})`,
      figure: median(marks),
      unit: 'ms',
      below: 50,
    },
    { what: 'the same, slowest', figure: Math.max(...marks), unit: 'ms', below: null },
  ];
}
