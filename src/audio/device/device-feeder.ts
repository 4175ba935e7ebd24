/** Keeps a device fed from a score, and mixes anew what a command changes. */
import { momentOf } from '../../music/time/exact-seconds.ts';
import type { SoundCommand } from '../../music/sound/sound-commands.ts';
import type { Frames, Milliseconds, Seconds } from '../../common/units.ts';
import type { Device } from './device.ts';
import { type Kit, mix } from '../mix/mixer.ts';
import { DRONE_OUT, EMPTY_SCORE, type Now, type Score, applyCommand, enter } from '../mix/score.ts';
import { createSteadyClock } from '../process/steady-clock.ts';

export interface Feeder {
  /** Goes on with a score from what the ear is at. */
  take(score: Score, heard: Seconds): void;
  /** Applies a command as soon as the device can. */
  command(command: SoundCommand): Now;
  /** To be called often, at least each tenth of a second. */
  feed(): void;
  /** What the player's ear is at. */
  heard(): Seconds;
}

/** Sound held ready: more than any pause that a busy machine forces on this process. */
const AHEAD: Seconds = 1.2;
const CHUNK: Seconds = 0.2;

/** Whether anything at all may sound from a moment on. */
const isQuiet = (score: Score, from: Seconds): boolean =>
  score.tracks.every((t) => t.until !== null && t.until < from - 3) &&
  score.drones.every((d) => d.until !== null && d.until + DRONE_OUT < from) &&
  score.chimes.every((at) => at < from - 3);

/** Feeds `device` with what `kit` makes of a score; `now` is a monotonic clock in milliseconds. */
export function createFeeder(device: Device, kit: Kit, now: () => Milliseconds): Feeder {
  const clock = createSteadyClock(device.rate);
  const ahead = Math.round(AHEAD * device.rate);
  const chunk = Math.round(CHUNK * device.rate);
  let score: Score = EMPTY_SCORE;
  /** Score frame of the device's frame 0. */
  let offset: Frames = 0;
  /** Device frame up to which sound is queued. */
  let queued: Frames = 0;

  const heardFrames = (): number => clock.at(device.position(), now()) - device.latency * device.rate;
  const earliest = (): Frames => device.position() + device.margin();

  function fill(): void {
    const to = device.position() + ahead;
    queued = Math.max(queued, earliest());
    while (queued < to) {
      const from = queued + offset;
      const samples = isQuiet(score, from / device.rate) ? null : mix(score, kit, from, chunk);
      // Held up while mixing: what would come late is left out, since what comes late would be out of time.
      if (device.position() > queued) queued = earliest();
      else {
        if (samples) device.queue(queued, samples);
        queued += chunk;
      }
    }
  }

  function mixAgain(from: Frames): void {
    device.revoke(from);
    queued = from;
    fill();
  }

  return {
    take(taken, heard) {
      offset = Math.round(heard * device.rate - heardFrames());
      const from = earliest();
      score = enter(taken, (from + offset) / device.rate);
      mixAgain(from);
    },
    command(command) {
      const from = earliest();
      const at: Now = { heard: (heardFrames() + offset) / device.rate, earliest: momentOf(from + offset, device.rate) };
      score = applyCommand(score, command, at);
      mixAgain(from);
      return at;
    },
    feed() {
      clock.at(device.position(), now());
      fill();
    },
    heard: () => (heardFrames() + offset) / device.rate,
  };
}
