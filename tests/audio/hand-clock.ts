import type { SoundClock } from '../../src/audio/process/sound-clock.ts';

export interface HandClock extends SoundClock {
  /** Moves time on, waking in order all that is due. */
  advance(by: number): void;
}

/** A clock that moves only when told to. */
export function handClock(): HandClock {
  let now = 1_000_000;
  let due: { readonly at: number; readonly call: () => void }[] = [];
  return {
    now: () => now,
    wake(after, call) {
      const waiting = { at: now + Math.max(0, after), call };
      due.push(waiting);
      return () => {
        due = due.filter((d) => d !== waiting);
      };
    },
    advance(by) {
      const end = now + by;
      for (;;) {
        const next = due.filter((d) => d.at <= end).sort((a, b) => a.at - b.at)[0];
        if (!next) break;
        due = due.filter((d) => d !== next);
        now = Math.max(now, next.at);
        next.call();
      }
      now = end;
    },
  };
}
