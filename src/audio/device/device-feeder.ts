/** Keeps a device fed from a score, and mixes anew what a command changes. */
import { enter } from '../mix/sound-comes-back.ts';
import { momentOf } from '../../music/time/exact-seconds.ts';
import type { SoundCommand } from '../../music/sound/sound-commands.ts';
import type { Frames, Milliseconds, Seconds } from '../../common/units.ts';
import type { Device } from './device.ts';
import { type Kit, mix } from '../mix/mixer.ts';
import { DRONE_OUT, EMPTY_SCORE, type Now, type Score, applyCommand } from '../mix/score.ts';
import { type SteadyPosition, createSteadyPosition } from './steady-position.ts';

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

/**
 * So long after it was opened a device's line is still being found: each reading nearer to the top of a block moves it
 * up, 10 ms in all on average. What sounded before goes on in its old time all the while.
 */
const FINDING: Milliseconds = 3000;

/** Whether anything at all may sound from a moment on. */
const isQuiet = (score: Score, from: Seconds): boolean =>
  score.tracks.every((t) => t.until !== null && t.until < from - 3) &&
  score.drones.every((d) => d.until !== null && d.until + DRONE_OUT < from) &&
  score.chimes.every((at) => at < from - 3);

/** A device and what it is fed with; frames are the device's where nothing else is said. */
interface Feed {
  readonly device: Device;
  readonly kit: Kit;
  readonly now: () => Milliseconds;
  readonly position: SteadyPosition;
  score: Score;
  /** Score frame of the device's frame 0. */
  offset: Frames;
  /** The time that another process kept before: the ear was at `heard` at `at`. Null once the line is found. */
  before: { readonly heard: Seconds; readonly at: Milliseconds } | null;
  /** Frame up to which sound is queued. */
  queued: Frames;
}

const steadyFrames = ({ device, position, now }: Feed): Frames => position.at(device.position(), now());

/** Score frame that the player's ear is at, were the offset 0. */
const heardFrames = (feed: Feed): Frames => steadyFrames(feed) - feed.device.latency * feed.device.rate;

const heardIn = (feed: Feed): Seconds => (heardFrames(feed) + feed.offset) / feed.device.rate;

/** First frame that can still be changed. */
const earliest = ({ device }: Feed): Frames => device.position() + device.margin();

/** Sound from the end of the queue on; null where it is silence. */
function nextChunk({ score, kit, device, queued, offset }: Feed): Float32Array | null {
  const from = queued + offset;
  return isQuiet(score, from / device.rate) ? null : mix(score, kit, from, Math.round(CHUNK * device.rate));
}

function fill(feed: Feed): void {
  const { device } = feed;
  const to = device.position() + Math.round(AHEAD * device.rate);
  feed.queued = Math.max(feed.queued, earliest(feed));
  while (feed.queued < to) {
    const samples = nextChunk(feed);
    // Held up while mixing: what would come late is left out, since what comes late would be out of time.
    if (device.position() > feed.queued) feed.queued = earliest(feed);
    else queueChunk(feed, samples);
  }
}

function queueChunk(feed: Feed, samples: Float32Array | null): void {
  if (samples) feed.device.queue(feed.queued, samples);
  feed.queued += Math.round(CHUNK * feed.device.rate);
}

/** Another score from a frame on. */
function changeScore(feed: Feed, score: Score, from: Frames): void {
  feed.score = score;
  feed.device.revoke(from);
  feed.queued = from;
  fill(feed);
}

/** The offset with which the old time goes on, in parts of a frame. */
const offsetFor = (feed: Feed, heard: Seconds, at: Milliseconds): number =>
  (heard + (feed.now() - at) / 1000) * feed.device.rate - heardFrames(feed);

/** Moves the sound where the line has moved, so that no beat comes early for having been taken over. */
function keepTime(feed: Feed): void {
  if (!feed.before) return;
  const { heard, at } = feed.before;
  const right = offsetFor(feed, heard, at);
  if (feed.now() - at > FINDING) feed.before = null;
  else if (Math.abs(right - feed.offset) > 0.5) {
    feed.offset = Math.round(right);
    changeScore(feed, feed.score, earliest(feed));
  }
}

function take(feed: Feed, score: Score, heard: Seconds): void {
  const at = feed.now();
  feed.offset = Math.round(offsetFor(feed, heard, at));
  feed.before = isQuiet(score, heard) ? null : { heard, at };
  const from = earliest(feed);
  changeScore(feed, enter(score, (from + feed.offset) / feed.device.rate), from);
}

function obey(feed: Feed, command: SoundCommand): Now {
  keepTime(feed);
  const from = earliest(feed);
  const now: Now = { heard: heardIn(feed), earliest: momentOf(from + feed.offset, feed.device.rate) };
  changeScore(feed, applyCommand(feed.score, command, now), from);
  return now;
}

/** Feeds `device` with what `kit` makes of a score; `now` is a monotonic clock in milliseconds. */
export function createFeeder(device: Device, kit: Kit, now: () => Milliseconds): Feeder {
  const position = createSteadyPosition(device.rate);
  const feed: Feed = { device, kit, now, position, score: EMPTY_SCORE, offset: 0, queued: 0, before: null };
  return {
    take: (score, heard) => take(feed, score, heard),
    command: (command) => obey(feed, command),
    feed() {
      // A reading more, for a steadier line.
      steadyFrames(feed);
      keepTime(feed);
      fill(feed);
    },
    heard() {
      keepTime(feed);
      return heardIn(feed);
    },
  };
}
