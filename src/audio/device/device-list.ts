/** Which devices there are, by name, and the opening of one. For the child process only. */
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import type { Device } from './device.ts';
import type { Attempt, BackEnd, DeviceSettings } from '../process/protocol.ts';
import { openSpeaker } from './speaker-device.ts';
import { openWebAudio } from './web-audio-device.ts';
import { loadWebAudio } from './web-audio-library.ts';

const run = promisify(execFile);

/** Sinks of a PulseAudio or PipeWire server: its own tool names them, the native library does not. */
async function pulseSinks(): Promise<readonly string[]> {
  try {
    const { stdout } = await run('pactl', ['list', 'short', 'sinks'], { timeout: 1500 });
    return stdout.split('\n').flatMap((line) => line.split('\t')[1] ?? []);
  } catch {
    return [];
  }
}

interface Known {
  readonly name: string;
  /** The library's id, or null for a sink that is chosen through PULSE_SINK. */
  readonly id: string | null;
}

async function knownDevices(): Promise<readonly Known[]> {
  const library = await loadWebAudio();
  const listed = (await library.mediaDevices.enumerateDevices()).filter((d) => d.kind === 'audiooutput');
  const sinks = (await pulseSinks()).map((name) => ({ name, id: null }));
  return [...listed.map((d) => ({ name: d.label, id: d.deviceId })), ...sinks];
}

/** Names that a player may choose. */
export const deviceNames = async (): Promise<readonly string[]> => [
  ...new Set((await knownDevices()).map((d) => d.name)),
];

async function openByName(settings: DeviceSettings, name: string): Promise<Device> {
  const devices = await knownDevices();
  const found =
    devices.find((d) => d.name === name) ?? devices.find((d) => d.name.toLowerCase() === name.toLowerCase());
  // The library would open the default for a name that it does not know.
  if (!found)
    throw new Error(
      `there is no sound device called ${JSON.stringify(name)}; there is ` +
        `${devices.map((d) => d.name).join(', ') || 'none'}`,
    );
  if (found.id === null) process.env['PULSE_SINK'] = found.name;
  return openWebAudio(settings, found.name, found.id ?? '');
}

const OPENERS: Readonly<Record<BackEnd, (settings: DeviceSettings) => Promise<Device>>> = {
  'web-audio': (settings) =>
    settings.device === null ? openWebAudio(settings, 'default', '') : openByName(settings, settings.device),
  speaker: (settings) =>
    settings.device === null
      ? openSpeaker()
      : Promise.reject(new Error('the package speaker plays to the default device only')),
};

const reasonOf = (error: unknown): string =>
  (error instanceof Error ? error.message.split('\n')[0] : null) ?? String(error);

interface Progress {
  trying(backEnd: BackEnd): void;
  refused(attempt: Attempt): void;
}

/** Opens the first way out that can be opened; null where none could. */
export async function openDevice(settings: DeviceSettings, progress: Progress): Promise<Device | null> {
  for (const backEnd of settings.backEnds) {
    progress.trying(backEnd);
    try {
      return await OPENERS[backEnd](settings);
    } catch (error) {
      progress.refused({ backEnd, reason: reasonOf(error) });
    }
  }
  return null;
}
