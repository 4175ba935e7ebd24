/** The terminal as a guest's room: taken over whole, and given back as it was found on every way out. */
import { writeSync } from 'node:fs';

/** The other screen (xterm's 1049), cleared; no line runs over into the next (DECAWM, 7); no cursor (25). */
export const ENTER = '\x1b[?1049h\x1b[2J\x1b[H\x1b[?7l\x1b[?25l';
const LEAVE = '\x1b[?25h\x1b[?7h\x1b[?1049l';

export interface Terminal {
  enter(): void;
  /** Safe to call twice; written at once, so that it is out before the process ends. */
  leave(): void;
}

function setRaw(stdin: NodeJS.ReadStream, raw: boolean): void {
  if (stdin.isTTY) stdin.setRawMode(raw);
}

/** For output in lines: the screen stays the shell's. */
export const IN_LINES = { enter: '', leave: '' } as const;

export function createTerminal(
  stdin: NodeJS.ReadStream,
  stdout: { readonly fd: number },
  signs: { readonly enter: string; readonly leave: string } = { enter: ENTER, leave: LEAVE },
): Terminal {
  let inside = false;
  const write = (text: string): void => {
    try {
      writeSync(stdout.fd, text);
    } catch {
      // The terminal is gone (the window was closed): nothing to give back.
    }
  };
  return {
    enter: () => {
      inside = true;
      setRaw(stdin, true);
      write(signs.enter);
    },
    leave: () => {
      if (!inside) return;
      inside = false;
      try {
        setRaw(stdin, false);
      } catch {
        // As above.
      }
      write(signs.leave);
    },
  };
}
