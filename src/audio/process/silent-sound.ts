/** The silent twin: the same beats, driven by a clock alone. */
import type { SoundOutput, SoundReport } from '../../music/sound/sound-commands.ts';
import { type SoundClock, createConductor } from './beat-counter.ts';
import { sharedClock } from './protocol.ts';

/** The system's monotonic clock and timers. */
export const systemClock: SoundClock = {
  now: sharedClock,
  wake(after, call) {
    const timer = setTimeout(call, after);
    return () => clearTimeout(timer);
  },
};

/** A set of listeners. */
export function createListeners(): {
  readonly tell: (report: SoundReport) => void;
  readonly listen: SoundOutput['listen'];
} {
  const listeners = new Set<(report: SoundReport) => void>();
  return {
    tell: (report) => {
      for (const listener of listeners) listener(report);
    },
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** Sound without sound: reports beats in real time, or in the time of the clock that is handed in. */
export function createSilentSound(options: { readonly clock?: SoundClock } = {}): SoundOutput {
  const { tell, listen } = createListeners();
  const conductor = createConductor(options.clock ?? systemClock, tell);
  return {
    send: (command) => conductor.apply(command),
    listen,
    close: () => {
      conductor.close();
      return Promise.resolve();
    },
  };
}
