/**
 * A real terminal for a journey: tmux on a socket of its own, which replays what the program sends as a
 * terminal would. A journey waits for what a person would see, never for a time to pass.
 */
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';

const run = promisify(execFile);

export interface Size {
  readonly columns: number;
  readonly rows: number;
}

export const SMALL: Size = { columns: 80, rows: 24 };
export const LARGE: Size = { columns: 120, rows: 36 };

/** The state in which a terminal should be found after a program has left. */
export interface Manners {
  readonly alternateScreen: boolean;
  readonly cursorShown: boolean;
  /** Settings of the line discipline, as stty writes them. */
  readonly lineSettings: string;
}

export interface Terminal {
  /** What is on the screen now, without blanks at the ends of lines; a line that was wrapped is one. */
  readonly screen: () => Promise<string>;
  /** Waits until the screen shows it and gives the screen; fails with the screen as it was last. */
  readonly until: (wanted: string | RegExp, within?: number) => Promise<string>;
  /** Waits until the screen no longer shows it. */
  readonly untilGone: (unwanted: string | RegExp, within?: number) => Promise<string>;
  /** Keys by tmux's names: 'c', 'Space', 'Enter', 'NPage', 'C-c'. */
  readonly press: (...keys: readonly string[]) => Promise<void>;
  /** Types a line and Enter. */
  readonly type: (line: string) => Promise<void>;
  /** Process ids of what the shell started, the direct children only. */
  readonly children: () => Promise<readonly number[]>;
  readonly manners: () => Promise<Manners>;
  readonly resize: (size: Size) => Promise<void>;
  readonly close: () => Promise<void>;
}

let opened = 0;
const NAP = 40;
const nap = (): Promise<void> => new Promise((resolve) => void setTimeout(resolve, NAP));

const shows = (screen: string, wanted: string | RegExp): boolean =>
  typeof wanted === 'string' ? screen.includes(wanted) : wanted.test(screen);

/** Waits for something that cannot be seen on a screen, such as the end of a process. */
export async function eventually(done: () => boolean, what: string, within = 10_000): Promise<void> {
  const deadline = performance.now() + within;
  while (!done()) {
    if (performance.now() > deadline) throw new Error(`not within ${within} ms: ${what}`);
    await nap();
  }
}

export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

/** The shell's prompt gives the exit code of what ran last: 'left 0 ›'. */
export const PROMPT = /left \d+ ›$/m;
export const leftWith = (code: number): RegExp => new RegExp(`left ${code} ›$`, 'm');

/** Opens a shell in a terminal of that size. */
export async function openTerminal(
  size: Size,
  folder: string,
  env: Readonly<Record<string, string>> = {},
): Promise<Terminal> {
  opened += 1;
  const socket = `standside-${process.pid}-${opened}`;
  const tmux = async (...args: readonly string[]): Promise<string> =>
    (
      await run('tmux', ['-u', '-L', socket, '-f', '/dev/null', ...args], {
        encoding: 'utf8',
        env: { ...process.env, ...env, LC_ALL: 'C.UTF-8' },
      })
    ).stdout;
  const shell = `exec env PS1='left $? › ' HISTFILE= bash --norc --noprofile`;
  await tmux('new-session', '-d', '-x', `${size.columns}`, '-y', `${size.rows}`, '-c', folder, shell);

  const screen = async (): Promise<string> => (await tmux('capture-pane', '-p', '-J')).replace(/[ \t]+$/gm, '');
  const ask = async (format: string): Promise<string> => (await tmux('display-message', '-p', format)).trim();
  const wait = async (done: (screen: string) => boolean, what: string, within: number): Promise<string> => {
    const deadline = performance.now() + within;
    for (;;) {
      const now = await screen();
      if (done(now)) return now;
      if (performance.now() > deadline) throw new Error(`${what} within ${within} ms; the screen:\n${now}`);
      await nap();
    }
  };
  const until: Terminal['until'] = (wanted, within = 20_000) =>
    wait((now) => shows(now, wanted), `no ${wanted}`, within);
  const untilGone: Terminal['untilGone'] = (unwanted, within = 20_000) =>
    wait((now) => !shows(now, unwanted), `still ${unwanted}`, within);
  const children = async (): Promise<readonly number[]> => {
    const found = await run('pgrep', ['-P', await ask('#{pane_pid}')]).catch(() => ({ stdout: '' }));
    return found.stdout.split('\n').filter(Boolean).map(Number);
  };
  const manners = async (): Promise<Manners> => {
    const [alternate, cursor, tty] = (await ask('#{alternate_on} #{cursor_flag} #{pane_tty}')).split(' ');
    const { stdout } = await run('stty', ['-g', '-F', tty ?? '']);
    return { alternateScreen: alternate === '1', cursorShown: cursor === '1', lineSettings: stdout.trim() };
  };
  await until(PROMPT);
  return {
    screen,
    until,
    untilGone,
    press: async (...keys) => void (await tmux('send-keys', ...keys)),
    type: async (line) => {
      await tmux('send-keys', '-l', line);
      await tmux('send-keys', 'Enter');
    },
    children,
    manners,
    resize: async ({ columns, rows }) => void (await tmux('resize-window', '-x', `${columns}`, '-y', `${rows}`)),
    close: async () => {
      const running = await children().catch(() => []);
      await tmux('kill-server').catch(() => '');
      await eventually(() => !running.some(isAlive), 'the program ends with its terminal').catch(() => undefined);
    },
  };
}
