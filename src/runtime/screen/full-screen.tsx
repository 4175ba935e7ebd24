/** Runs the full-screen program on a real terminal until the player leaves. */
import { render } from 'ink';
import type { Lettering } from '../../music/page/strip.ts';
import type { KeyRow } from '../../ui/keys.ts';
import { App } from '../../ui/app.tsx';
import { COLOURS, PLAIN } from '../../ui/theme.ts';
import type { RunningDesk } from '../desk.ts';
import { createFrames } from './changed-lines.ts';
import { silentTwin } from './silent-terminal.ts';
import type { Terminal } from './terminal.ts';

export interface FullScreen {
  readonly desk: RunningDesk;
  readonly keys: readonly KeyRow[];
  readonly terminal: Terminal;
  readonly colour: boolean;
  readonly lettering: Lettering;
  /** Frees everything the program holds; must not throw. */
  readonly close: () => Promise<void>;
  /** One line for the log file. */
  readonly log: (text: string) => void;
  readonly logPath: string;
}

/** A deadly signal's exit code, as shells count it. */
const SIGNALS = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const;

const LEARN_AFTER = 150;
const LAST_WAIT = 1000;

/** Resolves with the exit code. */
export function runFullScreen(screen: FullScreen): Promise<number> {
  const { desk, keys, terminal, colour, lettering } = screen;
  return new Promise((resolve) => {
    terminal.enter();
    const frames = createFrames(process.stdout, colour ? COLOURS : PLAIN);
    // Ink reads the keys and keeps the tree; the drawings go to `frames`, and Ink itself has nothing to write.
    const ink = render(<App desk={desk} keys={keys} paint={frames.paint} lettering={lettering} />, {
      stdout: silentTwin(process.stdout),
      exitOnCtrlC: false,
      patchConsole: false,
      debug: true,
    });

    // After the first frame: with many marks this takes a moment that nobody should wait for.
    setTimeout(() => desk.learn(), LEARN_AFTER);

    let over = false;
    const finish = (code: number, lastWords?: string): void => {
      if (over) return;
      over = true;
      frames.close();
      terminal.leave();
      if (lastWords) process.stderr.write(`${lastWords}\n`);
      // Whatever goes wrong from here on, the way out stays open: all marks are on the disk.
      setTimeout(() => resolve(code), LAST_WAIT);
      void screen.close().finally(() => resolve(code));
      try {
        ink.unmount();
      } catch (error) {
        screen.log(`while leaving: ${String(error)}`);
      }
    };

    const onCrash = (error: unknown): void => {
      screen.log(error instanceof Error ? (error.stack ?? error.message) : String(error));
      finish(
        1,
        `standside stopped because of a mistake in the program; every mark is kept. What happened is in ` +
          `${screen.logPath}.`,
      );
    };

    // Raw mode hands Ctrl-Z to the program, and with the whole group stopped the shell has its terminal back.
    const suspend = (): void => {
      desk.rest();
      // What React still has to draw must not land on the shell's screen.
      frames.hold();
      terminal.leave();
      process.kill(0, 'SIGSTOP');
    };
    const resume = (): void => {
      if (over) return;
      terminal.enter();
      frames.repeat();
    };

    desk.onLeave(() => finish(0));
    desk.onSuspend(suspend);
    for (const [signal, code] of Object.entries(SIGNALS)) process.on(signal, () => finish(code));
    process.on('SIGTSTP', suspend);
    process.on('SIGCONT', resume);
    process.on('uncaughtException', onCrash);
    process.on('unhandledRejection', onCrash);
    // A mistake while drawing ends Ink's tree.
    ink.waitUntilExit().catch(onCrash);
  });
}
