import type { SoundOutput, SoundReport } from '../../music/sound/sound-commands.ts';

/** Those who are told what the sound reports. */
export interface ReportListeners {
  tell(report: SoundReport): void;
  readonly listen: SoundOutput['listen'];
}

export function createListeners(): ReportListeners {
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
