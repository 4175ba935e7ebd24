/**
 * Every message between the program and the child process that makes the sound. Sent with the 'advanced'
 * serialisation, which carries bigints.
 */
import type { SoundCommand } from '../../music/sound/sound-commands.ts';
import type { FrameRate, Milliseconds, Seconds } from '../../common/units.ts';
import type { Now, Score } from '../mix/score.ts';

export type BackEnd = 'web-audio' | 'speaker';

/** How the sound card is to be used; handed to the child as its one argument, as JSON. */
export interface DeviceSettings {
  /** Name of the device; null is the system's default. */
  readonly device: string | null;
  /** 'low' answers soonest; 'safe' holds more sound ready, for a machine with both hands full. */
  readonly latency: 'low' | 'safe';
  /** What may be tried, in this order. */
  readonly backEnds: readonly BackEnd[];
  /** Whether to tell the names of all devices too, which takes a moment. */
  readonly list: boolean;
}

export interface OutputInfo {
  readonly backEnd: BackEnd;
  readonly device: string;
  readonly rate: FrameRate;
  /** Estimate of the time from the mixer to the ear. */
  readonly latency: Seconds;
}

/** A way out that was tried in vain. */
export interface Attempt {
  readonly backEnd: BackEnd;
  readonly reason: string;
}

export type ToChild =
  /** Go on from here: `heard` is what the player's ear is at when the shared clock reads `at`. */
  | { readonly to: 'take'; readonly score: Score; readonly heard: Seconds; readonly at: Milliseconds }
  | { readonly to: 'do'; readonly id: number; readonly command: SoundCommand };

export type FromChild =
  /** About to load a library that is known to end the process where there is no device. */
  | { readonly from: 'trying'; readonly backEnd: BackEnd }
  | { readonly from: 'refused'; readonly attempt: Attempt }
  | { readonly from: 'devices'; readonly names: readonly string[] }
  | { readonly from: 'opened'; readonly output: OutputInfo }
  /** Nothing could be opened; the child is about to end. */
  | { readonly from: 'failed' }
  /** A command has taken effect as of `now`. */
  | { readonly from: 'done'; readonly id: number; readonly now: Now }
  /** Heartbeat and clock: the ear is at `heard` when the shared clock reads `at`. */
  | { readonly from: 'position'; readonly heard: Seconds; readonly at: Milliseconds }
  /** The device has stopped taking sound; the child is about to end. */
  | { readonly from: 'lost' };

/** A clock that parent and child share: the system's monotonic one, which all processes read alike. */
export const sharedClock = (): Milliseconds => Number(process.hrtime.bigint()) / 1e6;
