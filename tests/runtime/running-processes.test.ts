import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { hostOf, startAsker, thisMachine, ticksOf } from '../../src/runtime/running-processes.ts';

let child: ChildProcess | null = null;
afterEach(() => child?.kill('SIGKILL'));

/** Another process that lives until it is killed. */
function other(): number {
  child = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1e6)'], { stdio: 'ignore' });
  return child.pid ?? 0;
}

async function gone(): Promise<void> {
  const exit = child && once(child, 'exit');
  child?.kill('SIGKILL');
  await exit;
}

const ps = spawnSync('ps', ['-p', String(process.pid), '-o', 'lstart='], { encoding: 'utf8' });
const linux = process.platform === 'linux';

describe('a machine', () => {
  it('is called the same on every network', () => {
    expect(hostOf('laptop.home.arpa')).toBe('laptop');
    expect(hostOf('laptop')).toBe('laptop');
    const { host, pid } = thisMachine();
    expect(hostname().startsWith(host)).toBe(true);
    expect(host).toMatch(/^[^.]+$/);
    expect(pid).toBe(process.pid);
  });

  it('knows which processes run', async () => {
    const pid = other();
    const { isRunning } = thisMachine();
    expect(isRunning(pid)).toBe(true);
    await gone();
    expect(isRunning(pid)).toBe(false);
  });

  it.each([
    ['EPERM', true],
    ['ESRCH', false],
  ])('takes %s for an answer, and sends no signal', (code, runs) => {
    const kill = vi.spyOn(process, 'kill').mockImplementation(() => {
      throw Object.assign(new Error(code), { code });
    });
    expect(thisMachine().isRunning(1)).toBe(runs);
    expect(kill.mock.calls).toEqual([[1, 0]]);
    kill.mockRestore();
  });
});

describe('when a process started', () => {
  it('is the 22nd field of its stat, whatever its name holds (proc(5))', () => {
    const fields = Array.from({ length: 52 }, (_, i) => `f${i + 1}`);
    for (const name of ['(node)', '(two words)', '(a) (b) c)']) {
      fields[1] = name;
      expect(ticksOf(fields.join(' '))).toBe('f22');
    }
  });

  it.runIf(linux)('is told from another process’s, and stays the same, on Linux', () => {
    const startOf = startAsker('linux');
    const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
    expect(startOf(process.pid)).toMatch(new RegExp(`^${boot} \\d+$`));
    expect(startOf(process.pid)).toBe(thisMachine().startOf(process.pid));
    expect(startOf(process.pid)).not.toBe(startOf(1));
  });

  it.runIf(ps.status === 0)('is what ps says on other Unixes, and null for a process that is not', async () => {
    const startOf = startAsker('darwin');
    expect(startOf(process.pid)).toBe(ps.stdout.trim());
    const pid = other();
    await gone();
    expect(startOf(pid)).toBeNull();
  });

  it('is not known on Windows, nor of a process that is not', async () => {
    expect(startAsker('win32')(process.pid)).toBeNull();
    const pid = other();
    await gone();
    expect(startAsker('linux')(pid)).toBeNull();
  });
});
