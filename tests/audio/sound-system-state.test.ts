import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { soundSurroundings } from '../../src/audio/process/sound-system-state.ts';
import { scratch } from './programs.ts';

let folder: string;
beforeEach(() => {
  folder = scratch();
  vi.stubEnv('XDG_RUNTIME_DIR', folder);
  for (const name of ['PULSE_SERVER', 'PULSE_RUNTIME_PATH']) vi.stubEnv(name, undefined);
});
afterEach(() => void vi.unstubAllEnvs());

function put(path: string): void {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, '');
}

/** Whether a glance tells that something was put there, taken away and put there again. */
function notices(path: string): boolean {
  const glances = [soundSurroundings()];
  put(path);
  glances.push(soundSurroundings(), soundSurroundings());
  rmSync(path);
  glances.push(soundSurroundings());
  const [before, there, still, gone] = glances;
  return before !== there && there === still && gone === before;
}

describe.skipIf(process.platform !== 'linux')('a glance at the sound system of Linux', () => {
  it('sees the sockets of PulseAudio and PipeWire where the runtime folder is', () => {
    expect(notices(join(folder, 'pulse', 'native'))).toBe(true);
    expect(notices(join(folder, 'pipewire-0'))).toBe(true);
    expect(notices(join(folder, 'something-else'))).toBe(false);
  });

  it('sees a server that was replaced by another at the same place', () => {
    const socket = join(folder, 'pulse', 'native');
    put(socket);
    const before = soundSurroundings();
    put(`${socket}.new`);
    rmSync(socket);
    put(socket);
    expect(soundSurroundings()).not.toBe(before);
  });

  it('looks where PulseAudio is told to be', () => {
    const elsewhere = scratch();
    vi.stubEnv('PULSE_RUNTIME_PATH', elsewhere);
    expect(notices(join(elsewhere, 'native'))).toBe(true);
    for (const server of ['unix:', '']) {
      const socket = join(scratch(), 'socket');
      vi.stubEnv('PULSE_SERVER', `${server}${socket}`);
      expect(notices(socket)).toBe(true);
    }
  });

  it('sees nothing where the server is on another machine', () => {
    vi.stubEnv('PULSE_SERVER', 'tcp:studio:4713');
    expect(soundSurroundings()).toBeNull();
  });
});
