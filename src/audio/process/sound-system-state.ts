/**
 * What can be seen of the sound system without loading it: whether anything has changed since a device could not be
 * opened.
 */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const socketOf = (path: string): string => {
  try {
    const { ino, ctimeMs } = statSync(path);
    return `${path} ${ino} ${ctimeMs}`;
  } catch {
    return '';
  }
};

const cards = (): readonly string[] => {
  try {
    return readdirSync('/dev/snd');
  } catch {
    return [];
  }
};

/** The socket that a PulseAudio client is told to use; null where it is no file. */
function namedServer(): string | null {
  const server = process.env['PULSE_SERVER'];
  return server === undefined
    ? ''
    : server.startsWith('unix:')
      ? server.slice(5)
      : server.startsWith('/')
        ? server
        : null;
}

/** Sound cards and sound servers at a glance, on Linux; null elsewhere, where one has to try. */
export function soundSurroundings(): string | null {
  const named = namedServer();
  if (process.platform !== 'linux' || named === null) return null;
  const runtime = process.env['XDG_RUNTIME_DIR'] ?? `/run/user/${process.getuid?.() ?? 0}`;
  const pulse = process.env['PULSE_RUNTIME_PATH'] ?? join(runtime, 'pulse');
  const sockets = [named, join(pulse, 'native'), join(runtime, 'pipewire-0'), '/var/run/pulse/native'];
  return [...cards(), ...sockets.map(socketOf)].join('\n');
}
