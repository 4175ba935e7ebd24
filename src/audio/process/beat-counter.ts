/** Counts the beats: holds the score, knows what the ear is at by a clock, and reports each beat at its moment. */
import { exact } from '../../music/time/exact-seconds.ts';
import type { SoundCommand, SoundReport } from '../../music/sound/sound-commands.ts';
import type { Milliseconds, Seconds } from '../../common/units.ts';
import { EMPTY_SCORE, type Event, type Now, type Score, applyCommand, eventsBetween, isBusy } from '../mix/score.ts';
import type { SoundClock } from './sound-clock.ts';

/** What is counted, and how far. */
export interface BeatCount {
  readonly score: Score;
  /** The ear is at `heard` when the clock reads `at`. */
  readonly ear: { readonly heard: Seconds; readonly at: Milliseconds };
  /** How much later than assumed the player hears; positive delays the picture. */
  readonly offset: Milliseconds;
  /** All before this has been reported. */
  readonly reported: Seconds;
}

/** How soon a command takes effect when there is no device to ask. */
const SOON: Seconds = 0.02;
/** An event so near counts as due: no timer sleeps shorter. */
const NEAR: Seconds = 0.0005;
/** The longest sleep: the score may change under it. */
const NAP: Milliseconds = 250;

/** A count of nothing that begins when the clock reads `at`. */
export const beatCountFrom = (at: Milliseconds, offset: Milliseconds): BeatCount => ({
  score: EMPTY_SCORE,
  ear: { heard: 0, at },
  offset,
  reported: 0,
});

/** What the ear is at. */
export const heardAt = ({ ear }: BeatCount, now: Milliseconds): Seconds => ear.heard + (now - ear.at) / 1000;

/** What the picture is at. */
const seenAt = (count: BeatCount, now: Milliseconds): Seconds => heardAt(count, now) - count.offset / 1000;

/** When a command takes effect where no device says so: a moment from now. */
export const soonAfter = (heard: Seconds): Now => ({
  heard,
  earliest: exact(BigInt(Math.round((heard + SOON) * 1e6)), 1_000_000n),
});

/** What is to be reported by now, and the count after it. */
export function dueBeats(
  count: BeatCount,
  now: Milliseconds,
): { readonly count: BeatCount; readonly due: readonly Event[] } {
  const to = Math.max(count.reported, seenAt(count, now) + NEAR);
  return { count: { ...count, reported: to }, due: eventsBetween(count.score, count.reported, to) };
}

/** How long one may sleep before the next look; null where nothing is left to report. */
export function untilNextBeat(count: BeatCount, now: Milliseconds): Milliseconds | null {
  const { score, reported } = count;
  if (!isBusy(score, reported)) return null;
  const seen = seenAt(count, now);
  const next = eventsBetween(score, reported, Math.max(reported, seen) + NAP / 1000)[0];
  return Math.min(NAP, Math.max(0, next ? (next.at - seen) * 1000 : NAP));
}

const reportOf = (event: Event, lateBy: Milliseconds): SoundReport =>
  event.tell === 'end'
    ? { tell: 'end', span: event.span }
    : { tell: 'beat', span: event.span, bar: event.bar, beat: event.beat, beatsInBar: event.beatsInBar, lateBy };

export interface BeatCounter {
  score(): Score;
  /** What the ear is at, by the clock. */
  heard(): Seconds;
  /** The ear is at `heard` when the clock reads `at`. */
  anchor(heard: Seconds, at: Milliseconds): void;
  /** Applies a command that took effect at `now`, or, without one, a moment from now. */
  apply(command: SoundCommand, now?: Now): void;
  close(): void;
}

/** Keeps a count going; `offset` is how much later than assumed the player hears. */
export function createBeatCounter(
  clock: SoundClock,
  offset: Milliseconds,
  report: (report: SoundReport) => void,
): BeatCounter {
  let count = beatCountFrom(clock.now(), offset);
  let stopSleeping: (() => void) | null = null;

  const heard = (): Seconds => heardAt(count, clock.now());
  const lateBy = (event: Event): Milliseconds => Math.max(0, (seenAt(count, clock.now()) - event.at) * 1000);

  function sleep(): void {
    stopSleeping?.();
    const wait = untilNextBeat(count, clock.now());
    stopSleeping = wait === null ? null : clock.wake(wait, look);
  }

  function look(): void {
    const looked = dueBeats(count, clock.now());
    count = looked.count;
    for (const event of looked.due) report(reportOf(event, lateBy(event)));
    sleep();
  }

  return {
    score: () => count.score,
    heard,
    anchor(to, at) {
      count = { ...count, ear: { heard: to, at } };
    },
    apply(command, now = soonAfter(heard())) {
      count = { ...count, score: applyCommand(count.score, command, now) };
      sleep();
    },
    close: () => stopSleeping?.(),
  };
}
