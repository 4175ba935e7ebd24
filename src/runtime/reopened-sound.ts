/** A sound whose way out can be opened anew while the program runs: another device, another latency. */
import type { SoundCommand, SoundOutput, SoundReport } from '../music/sound/sound-commands.ts';

export interface ReopenedSound extends SoundOutput {
  /** The one before is closed; levels are told to the next. Whatever sounded is silent. */
  readonly reopen: (open: () => SoundOutput) => void;
}

export function reopenedSound(first: SoundOutput): ReopenedSound {
  const listeners = new Set<(report: SoundReport) => void>();
  const hear = (sound: SoundOutput) => sound.listen((report) => listeners.forEach((call) => call(report)));
  let sound = first;
  let deafen = hear(first);
  let levels: SoundCommand | null = null;
  const closing: Promise<void>[] = [];
  return {
    send: (command) => {
      if (command.ask === 'volume') levels = command;
      sound.send(command);
    },
    listen: (call) => {
      listeners.add(call);
      return () => void listeners.delete(call);
    },
    reopen: (open) => {
      deafen();
      closing.push(sound.close());
      sound = open();
      deafen = hear(sound);
      if (levels) sound.send(levels);
    },
    close: async () => {
      await Promise.all([...closing, sound.close()]);
    },
  };
}
