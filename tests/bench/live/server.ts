/** A PulseAudio server of our own with a null sink, so that nobody's sound is disturbed. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Server {
  readonly env: NodeJS.ProcessEnv;
  /** What another process needs to be told to play here. */
  readonly own: Readonly<Record<string, string>>;
  stop(): void;
}

export const RATE = 48_000;

/**
 * The server and the recorder stand for hardware, which waits for no program: where it is allowed they go first.
 * Without the right to, `nice` runs them as they are.
 */
export const first = (command: string, args: readonly string[]): [string, string[]] => [
  'nice',
  ['-n', '-15', command, ...args],
];

const sleep = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

function answers(env: NodeJS.ProcessEnv): boolean {
  try {
    return execFileSync('pactl', ['list', 'short', 'sinks'], { env, stdio: ['ignore', 'pipe', 'ignore'] }).includes(
      'out',
    );
  } catch {
    return false;
  }
}

const end = (child: ChildProcess): void => void child.kill('SIGKILL');

export async function startServer(folder = mkdtempSync(join(tmpdir(), 'standside-live-'))): Promise<Server> {
  const own = {
    XDG_RUNTIME_DIR: folder,
    PULSE_RUNTIME_PATH: join(folder, 'pulse'),
    PULSE_SERVER: `unix:${folder}/pulse/native`,
  };
  const env = { ...process.env, ...own };
  const modules = ['module-native-protocol-unix', `module-null-sink sink_name=out rate=${RATE}`].map(
    (m) => `--load=${m}`,
  );
  const server = spawn(...first('pulseaudio', ['-n', ...modules, '--exit-idle-time=-1', '--daemonize=no']), {
    env,
    stdio: 'ignore',
  });
  for (let i = 0; i < 50 && !answers(env); i++) await sleep(100);
  if (!answers(env)) throw new Error('PulseAudio did not start');
  // An idle sink takes up to two seconds to wake up, which a sound card does not: keep it awake with silence.
  const silence = spawn(...first('pacat', [`--rate=${RATE}`, '--latency-msec=100', '/dev/zero']), {
    env,
    stdio: 'ignore',
  });
  return { env, own, stop: () => [silence, server].forEach(end) };
}
