/**
 * The built program in a pseudo-terminal made by util-linux's `script`, with the moment at which each piece of output
 * came.
 */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { join } from 'node:path';

const MAIN = join(import.meta.dirname, '..', 'cli', 'main.js');
const STARTING = 'the program starts now';

export interface Watched {
  /** Waits for output after `from` that matches; gives the milliseconds from `from`. */
  readonly seen: (wanted: RegExp, from?: number) => Promise<number>;
  /** Types keys, and gives the moment. */
  readonly press: (keys: string) => number;
  /** When the shell handed over to node, in milliseconds of `performance.now()`. */
  readonly startedAt: () => Promise<number>;
  /** The process ids of the program and of its sound. */
  readonly processes: () => readonly number[];
  readonly close: () => Promise<void>;
}

interface Output {
  readonly at: number;
  readonly text: string;
}

/** All processes below one, nearest first. */
function below(pid: number): readonly number[] {
  try {
    const children = execFileSync('pgrep', ['-P', `${pid}`], { encoding: 'utf8' })
      .split('\n')
      .filter(Boolean)
      .map(Number);
    return [...children, ...children.flatMap(below)];
  } catch {
    return [];
  }
}

const ended = (child: ChildProcess): Promise<void> =>
  new Promise((resolve) => void child.once('exit', () => resolve()));

/** Runs `standside ...words` in a terminal of 120 x 36. */
export function watch(words: readonly string[], env: NodeJS.ProcessEnv = process.env, within = 30_000): Watched {
  const command = `stty cols 120 rows 36; echo ${STARTING}; exec ${process.execPath} ${MAIN} ${words.join(' ')}`;
  const child = spawn('script', ['-qefc', command, '/dev/null'], { env, stdio: ['pipe', 'pipe', 'ignore'] });
  const outputs: Output[] = [];
  let wake: (() => void) | null = null;
  child.stdout.setEncoding('utf8');
  child.stdout.on('data', (text: string) => {
    outputs.push({ at: performance.now(), text });
    wake?.();
  });
  /** The moment at which what came since `from` first matches, all pieces taken together. */
  const find = (wanted: RegExp, from: number): number | null => {
    let text = '';
    for (const output of outputs) {
      if (output.at < from) continue;
      text += output.text;
      if (wanted.test(text)) return output.at;
    }
    return null;
  };
  const moment = async (wanted: RegExp, from: number): Promise<number> => {
    const deadline = performance.now() + within;
    for (;;) {
      const at = find(wanted, from);
      if (at !== null) return at;
      if (performance.now() > deadline || child.exitCode !== null)
        throw new Error(`the program did not show ${wanted}`);
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, 1000);
        wake = () => (clearTimeout(timer), resolve());
      });
    }
  };
  return {
    seen: async (wanted, from = 0) => (await moment(wanted, from)) - from,
    press: (keys) => {
      const at = performance.now();
      child.stdin.write(keys);
      return at;
    },
    startedAt: () => moment(new RegExp(STARTING), 0),
    processes: () => below(child.pid ?? 0),
    close: async () => {
      const end = ended(child);
      child.stdin.write('q');
      // 'script' outlives a program that does not leave; a measurement must not.
      const late = setTimeout(() => child.kill('SIGKILL'), 5000);
      await end;
      clearTimeout(late);
    },
  };
}
