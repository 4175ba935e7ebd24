import type { Milliseconds } from '../../common/units.ts';
import { sharedClock } from './protocol.ts';

/** Time and waking, handed in. */
export interface SoundClock {
  /** Monotonic. */
  now(): Milliseconds;
  /** Calls back once after a delay; returns a function that takes it back. */
  wake(after: Milliseconds, call: () => void): () => void;
}

/** The system's monotonic clock and timers. */
export const systemClock: SoundClock = {
  now: sharedClock,
  wake(after, call) {
    const timer = setTimeout(call, after);
    return () => clearTimeout(timer);
  },
};
