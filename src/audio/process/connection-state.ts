/** The connection to the process that sounds: what is known of it, what can happen, what is then to be done. */
import type { SoundCommand } from '../../music/sound/sound-commands.ts';
import type { Milliseconds, Seconds } from '../../common/units.ts';
import type { Now } from '../mix/score.ts';
import type { Attempt, BackEnd, DeviceSettings, FromChild, OutputInfo } from './protocol.ts';

/** The process that lives. */
export interface Child {
  readonly number: number;
  /** When it last said anything. */
  readonly lastWord: Milliseconds;
  /** Whose library it is loading; null at other times. */
  readonly loading: BackEnd | null;
  /** Where it sounds; null until it does. */
  readonly output: OutputInfo | null;
}

/** What decides when another process is started in place of one that has ended. */
export interface Restart {
  /** Tries left that wait for no change around us. */
  readonly hurried: number;
  /** How much longer to wait for one. */
  readonly patience: Milliseconds;
  /** What was around us when the last process ended; null where that cannot be seen. */
  readonly endedIn: string | null;
}

/** A command that the process has not confirmed yet. */
interface Pending {
  readonly id: number;
  readonly command: SoundCommand;
}

export interface Connection {
  readonly settings: DeviceSettings;
  /** Null between two processes. */
  readonly child: Child | null;
  /** Processes started so far. */
  readonly started: number;
  /** Whether commands are still kept back for the first device. */
  readonly waiting: boolean;
  /** Whether anything has sounded at all. */
  readonly hasSounded: boolean;
  readonly pending: readonly Pending[];
  /** Number of the next command. */
  readonly nextId: number;
  readonly restart: Restart;
  /** When the watch last looked. */
  readonly watched: Milliseconds;
  /** What the process that was started last could not open. */
  readonly attempts: readonly Attempt[];
  readonly devices: readonly string[];
  /** What the player was told last. */
  readonly told: string | null;
  readonly closed: boolean;
}

/** 'watch' looks after the process, 'first-device' ends the wait for one, 'restart' looks whether to start another. */
export type Timer = 'watch' | 'first-device' | 'restart';

/** `around` is what can be seen of the sound system; null where nothing can. */
export type ConnectionEvent =
  | { readonly type: 'command'; readonly command: SoundCommand }
  | { readonly type: 'message'; readonly child: number; readonly message: FromChild }
  | { readonly type: 'ended'; readonly child: number; readonly around: string | null }
  | { readonly type: 'watch' }
  | { readonly type: 'first-device' }
  | { readonly type: 'restart'; readonly around: string | null }
  | { readonly type: 'close' };

export type ConnectionEffect =
  | { readonly do: 'start'; readonly child: number; readonly settings: DeviceSettings }
  /** End the process at once; its 'ended' follows. */
  | { readonly do: 'kill'; readonly child: number }
  /** Give the process the score as it stands, and what the ear is at. */
  | { readonly do: 'hand-over' }
  | { readonly do: 'send'; readonly id: number; readonly command: SoundCommand }
  /** Change the score on this side, as of `now`; null is a moment from now. */
  | { readonly do: 'apply'; readonly command: SoundCommand; readonly now: Now | null }
  /** The ear is at `heard` when the shared clock reads `at`. */
  | { readonly do: 'anchor'; readonly heard: Seconds; readonly at: Milliseconds }
  | { readonly do: 'tell'; readonly state: 'sounding' | 'silent'; readonly sentence: string }
  | { readonly do: 'wake'; readonly timer: Timer; readonly after: Milliseconds }
  /** The end: no process, no timer, no beat. */
  | { readonly do: 'stop' };

export interface ConnectionStep {
  readonly connection: Connection;
  /** In this order. What makes something else happen comes last: a listener that is told may ask or close at once. */
  readonly effects: readonly ConnectionEffect[];
}

export const step = (connection: Connection, ...effects: readonly ConnectionEffect[]): ConnectionStep => ({
  connection,
  effects,
});

export const wake = (timer: Timer, after: Milliseconds): ConnectionEffect => ({ do: 'wake', timer, after });

/** Tells the player once. */
export function tell(connection: Connection, state: 'sounding' | 'silent', sentence: string): ConnectionStep {
  if (connection.told === sentence) return step(connection);
  return step({ ...connection, told: sentence }, { do: 'tell', state, sentence });
}
