import { EventEmitter } from 'node:events';

/** A terminal's size and its changes, without its voice: what is written to it goes to `hear`. */
export function silentTwin(terminal: NodeJS.WriteStream, hear: (text: string) => void): NodeJS.WriteStream {
  const twin = Object.assign(new EventEmitter(), {
    isTTY: true,
    write: (text: string, done?: () => void): boolean => {
      hear(text);
      done?.();
      return true;
    },
  });
  Object.defineProperties(twin, {
    columns: { get: () => terminal.columns },
    rows: { get: () => terminal.rows },
  });
  terminal.on('resize', () => twin.emit('resize'));
  // Ink asks a stream for no more than this.
  return twin as unknown as NodeJS.WriteStream;
}
