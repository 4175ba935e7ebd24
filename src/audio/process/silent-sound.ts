/** The silent twin: the same beats, driven by a clock alone. */
import type { SoundOutput } from '../../music/sound/sound-commands.ts';
import { createBeatCounter } from './beat-counter.ts';
import { createListeners } from './report-listeners.ts';
import { type SoundClock, systemClock } from './sound-clock.ts';

/** Sound without sound: reports beats in real time, or in the time of the clock that is handed in. */
export function createSilentSound(options: { readonly clock?: SoundClock } = {}): SoundOutput {
  const { tell, listen } = createListeners();
  const counter = createBeatCounter(options.clock ?? systemClock, 0, tell);
  return {
    send: (command) => counter.apply(command),
    listen,
    close: () => {
      counter.close();
      return Promise.resolve();
    },
  };
}
