/**
 * The sound as the rest of the program sees it. What is to be done is decided in `sound-connection.ts`; here are the
 * process, the timers and the listeners, and the decisions are carried out.
 */
import type { SoundOutput } from '../../music/sound/sound-commands.ts';
import type { Milliseconds } from '../../common/units.ts';
import { type BeatCounter, createBeatCounter } from './beat-counter.ts';
import { type Connect, type Link, forkedChild } from './child-link.ts';
import type { Connection, ConnectionEffect, ConnectionEvent, ConnectionStep, Timer } from './connection-state.ts';
import type { Attempt, BackEnd, DeviceSettings, OutputInfo } from './protocol.ts';
import { type ReportListeners, createListeners } from './report-listeners.ts';
import { type SoundClock, systemClock } from './sound-clock.ts';
import { onConnectionEvent, openConnection, outputOf } from './sound-connection.ts';
import { soundSurroundings } from './sound-system-state.ts';

export interface SoundOptions {
  /** Name of the sound device; null or absent is the system's default. */
  readonly device?: string | null;
  /** 'low' (default) answers soonest, 'safe' holds more sound ready. */
  readonly latency?: DeviceSettings['latency'];
  /** The player's own correction from the tap test: how much later than assumed they hear. */
  readonly offset?: Milliseconds;
  /** Where the native libraries' lines go; null or absent is nowhere. */
  readonly logFile?: string | null;
  /** What may be tried, in this order. */
  readonly backEnds?: readonly BackEnd[];
  /** Whether the names of all devices are wanted. */
  readonly list?: boolean;
  readonly clock?: SoundClock;
  readonly connect?: Connect;
  /** A glance at the sound system; null where none can be had. */
  readonly surroundings?: () => string | null;
}

export interface Sound extends SoundOutput {
  /** What sounds at present; null while silent. */
  output(): OutputInfo | null;
  /** Why nothing could be opened when it was last tried. */
  attempts(): readonly Attempt[];
  /** Names of the devices, where they were asked for. */
  devices(): readonly string[];
}

/** All that is not pure, and where the connection stands. */
interface Client {
  readonly clock: SoundClock;
  readonly connect: Connect;
  readonly surroundings: () => string | null;
  readonly listeners: ReportListeners;
  readonly counter: BeatCounter;
  readonly timers: Map<Timer, () => void>;
  link: Link | null;
  connection: Connection;
}

function happen(client: Client, event: ConnectionEvent): void {
  take(client, onConnectionEvent(client.connection, event, client.clock.now()));
}

/** The new state counts before its effects are carried out: one of them may make the next thing happen. */
function take(client: Client, { connection, effects }: ConnectionStep): void {
  client.connection = connection;
  for (const effect of effects) carryOut(client, effect);
}

function carryOut(client: Client, effect: ConnectionEffect): void {
  switch (effect.do) {
    case 'start':
      return startChild(client, effect.child, effect.settings);
    case 'kill':
      return killChild(client, effect.child);
    case 'hand-over':
      return handOver(client);
    case 'send':
      return client.link?.send({ to: 'do', id: effect.id, command: effect.command });
    case 'apply':
      return client.counter.apply(effect.command, effect.now ?? undefined);
    case 'anchor':
      return client.counter.anchor(effect.heard, effect.at);
    case 'tell':
      return client.listeners.tell({ tell: 'output', state: effect.state, sentence: effect.sentence });
    case 'wake':
      return wakeAfter(client, effect.timer, effect.after);
    case 'stop':
      return stop(client);
  }
}

function startChild(client: Client, child: number, settings: DeviceSettings): void {
  client.link = client.connect(
    settings,
    (message) => happen(client, { type: 'message', child, message }),
    () => happen(client, { type: 'ended', child, around: client.surroundings() }),
  );
}

/** A link that is told to kill tells no end of its own. */
function killChild(client: Client, child: number): void {
  client.link?.kill();
  client.link = null;
  happen(client, { type: 'ended', child, around: client.surroundings() });
}

function handOver({ link, counter, clock }: Client): void {
  link?.send({ to: 'take', score: counter.score(), heard: counter.heard(), at: clock.now() });
}

function wakeAfter(client: Client, timer: Timer, after: Milliseconds): void {
  const call = (): void =>
    happen(client, timer === 'restart' ? { type: timer, around: client.surroundings() } : { type: timer });
  client.timers.set(timer, client.clock.wake(after, call));
}

function stop(client: Client): void {
  for (const cancel of client.timers.values()) cancel();
  client.link?.kill();
  client.counter.close();
}

const settingsOf = (options: SoundOptions): DeviceSettings => ({
  device: options.device ?? null,
  latency: options.latency ?? 'low',
  backEnds: options.backEnds ?? ['web-audio', 'speaker'],
  list: options.list ?? false,
});

function createClient(options: SoundOptions): Client {
  const clock = options.clock ?? systemClock;
  const listeners = createListeners();
  const opening = openConnection(settingsOf(options), clock.now());
  const client: Client = {
    clock,
    connect: options.connect ?? forkedChild(options.logFile ?? null),
    surroundings: options.surroundings ?? soundSurroundings,
    listeners,
    counter: createBeatCounter(clock, options.offset ?? 0, listeners.tell),
    timers: new Map(),
    link: null,
    connection: opening.connection,
  };
  take(client, opening);
  return client;
}

/** Opens the sound at once and without blocking; it never throws, and is silent where nothing can sound. */
export function createSound(options: SoundOptions = {}): Sound {
  const client = createClient(options);
  return {
    send: (command) => happen(client, { type: 'command', command }),
    listen: client.listeners.listen,
    output: () => outputOf(client.connection),
    attempts: () => client.connection.attempts,
    devices: () => client.connection.devices,
    close() {
      happen(client, { type: 'close' });
      return Promise.resolve();
    },
  };
}
