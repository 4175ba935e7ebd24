/** A connection to a sound process that is moved by hand, on a clock of its own. */
import type { SoundCommand } from '../../src/music/sound/sound-commands.ts';
import type { Connection, ConnectionEffect, ConnectionEvent } from '../../src/audio/process/connection-state.ts';
import type { DeviceSettings, FromChild } from '../../src/audio/process/protocol.ts';
import { onConnectionEvent, openConnection } from '../../src/audio/process/sound-connection.ts';

export const settings: DeviceSettings = {
  device: null,
  latency: 'low',
  backEnds: ['web-audio', 'speaker'],
  list: false,
};
export const OUTPUT = { backEnd: 'web-audio', device: 'tape', rate: 48_000, latency: 0.03 } as const;
export const NOW = { heard: 3, earliest: { n: 4n, d: 1n } };
export const STOP: SoundCommand = { ask: 'stop' };
export const CHIME: SoundCommand = { ask: 'chime' };

let now = 0;
let connection: Connection;

/** Opens a connection at 10 s on the shared clock. */
export function open(change: Partial<DeviceSettings> = {}): readonly ConnectionEffect[] {
  now = 10_000;
  const opened = openConnection({ ...settings, ...change }, now);
  connection = opened.connection;
  return opened.effects;
}

export function on(event: ConnectionEvent): readonly ConnectionEffect[] {
  const step = onConnectionEvent(connection, event, now);
  connection = step.connection;
  return step.effects;
}

export const hear = (child: number, message: FromChild): readonly ConnectionEffect[] =>
  on({ type: 'message', child, message });
export const ask = (command: SoundCommand): readonly ConnectionEffect[] => on({ type: 'command', command });
export const sounds = (child: number): readonly ConnectionEffect[] => hear(child, { from: 'opened', output: OUTPUT });
export const speaks = (child: number): readonly ConnectionEffect[] =>
  hear(child, { from: 'position', heard: 1, at: now });
export const ends = (child: number, around: string | null = 'as before'): readonly ConnectionEffect[] =>
  on({ type: 'ended', child, around });
export const tryAgain = (around: string | null = 'as before'): readonly ConnectionEffect[] =>
  on({ type: 'restart', around });

export const kinds = (effects: readonly ConnectionEffect[]): readonly string[] => effects.map((effect) => effect.do);
export const told = (effects: readonly ConnectionEffect[]): readonly string[] =>
  effects.flatMap((effect) => (effect.do === 'tell' ? [effect.sentence] : []));
export const soon = (command: SoundCommand): ConnectionEffect => ({ do: 'apply', command, now: null });

/** Lets time pass in which the watch looks every 200 ms, and gives what it did; `speaking` has the process speak. */
export function watchFor(ms: number, speaking = false): readonly ConnectionEffect[] {
  const effects: ConnectionEffect[] = [];
  for (let passed = 0; passed < ms; passed += 200) {
    now += 200;
    if (speaking) speaks(connection.child?.number ?? 0);
    effects.push(...on({ type: 'watch' }));
  }
  return effects;
}

/** Looks in vain until another process is started: how many. */
export function looksUntilStart(around: string | null): number {
  for (let looks = 1; looks < 100; looks++) if (kinds(tryAgain(around)).includes('start')) return looks;
  return Infinity;
}

/** What is known of the connection. */
export const state = (): Connection => connection;

/** Lets time pass in which nobody looks. */
export function pass(ms: number): void {
  now += ms;
}
