/** Counts the beats: holds the score, knows what the ear is at by a clock, and reports each beat at its moment. */
import { exact } from '../../music/time/exact-seconds.ts';
import type { SoundCommand, SoundReport } from '../../music/sound/sound-commands.ts';
import type { Milliseconds, Seconds } from '../../common/units.ts';
import { EMPTY_SCORE, type Event, type Now, type Score, applyCommand, eventsBetween, isBusy } from '../mix/score.ts';

/** Time and waking, handed in. */
export interface SoundClock {
  /** Monotonic. */
  now(): Milliseconds;
  /** Calls back once after a delay; returns a function that takes it back. */
  wake(after: Milliseconds, call: () => void): () => void;
}

export interface Conductor {
  readonly score: () => Score;
  /** What the ear is at, by the clock. */
  heard(): Seconds;
  /** The ear is at `heard` when the clock reads `at`. */
  anchor(heard: Seconds, at: Milliseconds): void;
  /** Applies a command that took effect at `now`, or, without one, a moment from now. */
  apply(command: SoundCommand, now?: Now): void;
  /** How much later than assumed the player hears; positive delays the picture. */
  setOffset(offset: Milliseconds): void;
  close(): void;
}

/** How soon a command takes effect when there is no device to ask. */
const SOON: Seconds = 0.02;
/** An event so near counts as due: no timer sleeps shorter. */
const NEAR: Seconds = 0.0005;
/** The longest sleep: the score may change under it. */
const NAP: Milliseconds = 250;

const soonAfter = (heard: Seconds): Now => ({
  heard,
  earliest: exact(BigInt(Math.round((heard + SOON) * 1e6)), 1_000_000n),
});

const reportOf = (event: Event, lateBy: Milliseconds): SoundReport =>
  event.tell === 'end'
    ? { tell: 'end', span: event.span }
    : { tell: 'beat', span: event.span, bar: event.bar, beat: event.beat, beatsInBar: event.beatsInBar, lateBy };

export function createConductor(clock: SoundClock, report: (report: SoundReport) => void): Conductor {
  let score: Score = EMPTY_SCORE;
  let fixed: { readonly heard: Seconds; readonly at: Milliseconds } = { heard: 0, at: clock.now() };
  let offset: Milliseconds = 0;
  /** All before this has been reported. */
  let reported: Seconds = 0;
  let sleep: (() => void) | null = null;

  const heard = (): Seconds => fixed.heard + (clock.now() - fixed.at) / 1000;
  const seen = (): Seconds => heard() - offset / 1000;

  function reportDue(): void {
    const to = Math.max(reported, seen() + NEAR);
    const due = eventsBetween(score, reported, to);
    reported = to;
    for (const event of due) report(reportOf(event, Math.max(0, (seen() - event.at) * 1000)));
  }

  function schedule(): void {
    sleep?.();
    sleep = null;
    if (!isBusy(score, reported)) return;
    const next = eventsBetween(score, reported, Math.max(reported, seen()) + NAP / 1000)[0];
    const wait = next ? (next.at - seen()) * 1000 : NAP;
    sleep = clock.wake(Math.min(NAP, Math.max(0, wait)), turn);
  }

  function turn(): void {
    reportDue();
    schedule();
  }

  return {
    score: () => score,
    heard,
    anchor(at, when) {
      fixed = { heard: at, at: when };
    },
    apply(command, now = soonAfter(heard())) {
      score = applyCommand(score, command, now);
      schedule();
    },
    setOffset(to) {
      offset = to;
    },
    close() {
      sleep?.();
      sleep = null;
    },
  };
}
