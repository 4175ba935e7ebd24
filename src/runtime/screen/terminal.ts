/** The terminal as a guest's room: taken over whole, and given back as it was found on every way out. */
import { writeSync } from 'node:fs';
import { isatty } from 'node:tty';

/**
 * The other screen (xterm's 1049), cleared; no line runs over into the next (DECAWM, 7); no cursor (25); pastes marked
 * (2004).
 */
export const ENTER = '\x1b[?1049h\x1b[2J\x1b[H\x1b[?7l\x1b[?25l\x1b[?2004h';
const LEAVE = '\x1b[?2004l\x1b[?25h\x1b[?7h\x1b[?1049l';

export interface Terminal {
  enter(): void;
  /** Safe to call twice; written at once, so that it is out before the process ends. */
  leave(): void;
}

function setRaw(stdin: NodeJS.ReadStream, raw: boolean): void {
  if (stdin.isTTY) stdin.setRawMode(raw);
}

/** For output in lines: the screen stays the shell's. */
export const IN_LINES = { enter: '\x1b[?2004h', leave: '\x1b[?2004l' } as const;

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

/** A terminal whose window was closed. */
const isGone = (): boolean => process.stdin.isTTY && !isatty(0);

/**
 * Ends the process once everything is closed: what a native library still holds open must not keep it. Node's own end
 * puts the terminal's state back, and aborts where there is no terminal any more: then the hang-up itself ends us.
 */
export function endProcess(code: number): Promise<never> {
  if (!isGone()) process.exit(code);
  process.removeAllListeners('SIGHUP');
  process.kill(process.pid, 'SIGHUP');
  setTimeout(() => process.kill(process.pid, 'SIGKILL'), 500);
  return new Promise(() => {});
}
