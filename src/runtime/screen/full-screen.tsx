/** Runs the full-screen program on a real terminal until the player leaves. */
import { render } from 'ink';
import type { Settings } from '../../practice/settings.ts';
import { App, type Look } from '../../ui/app.tsx';
import { LinesApp } from '../../ui/lines/lines-app.tsx';
import { COLOURS, PLAIN } from '../../ui/theme.ts';
import type { Milliseconds } from '../../common/units.ts';
import type { RunningDesk } from '../desk.ts';
import { type Frames, createFrames } from './changed-lines.ts';
import { silentTwin } from './silent-terminal.ts';
import type { Terminal } from './terminal.ts';

export type Manner = 'drawn' | 'lines';

export interface FullScreen {
  readonly desk: RunningDesk;
  readonly look: (settings: Settings) => Look;
  readonly terminal: Terminal;
  readonly colour: boolean;
  /** 'lines': nothing is drawn; each thing that happens is one short line. */
  readonly manner: Manner;
  /** Frees everything the program holds; must not throw. */
  readonly close: () => Promise<void>;
  /** One line for the log file. */
  readonly log: (text: string) => void;
  readonly logPath: string;
}

/** A deadly signal's exit code, as shells count it. */
const SIGNALS = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129, SIGQUIT: 131 } as const;

/** After the first frame: with many marks learning takes a moment that nobody should wait for. */
const LEARN_AFTER: Milliseconds = 150;
const LAST_WAIT: Milliseconds = 1000;

type Ink = ReturnType<typeof render>;

const NO_FRAMES: Frames = { paint: () => {}, written: () => {}, hold: () => {}, repeat: () => {}, close: () => {} };

/** Lines are few and never taken back: they are Ink's own renderer's work. */
const openLines = ({ desk, look }: FullScreen): Ink =>
  render(<LinesApp desk={desk} {...look(desk.state().settings)} look={look} />, {
    exitOnCtrlC: false,
    patchConsole: false,
  });

/** Ink reads the keys and keeps the tree; pictures go to `frames`, and so does what Ink itself writes of a form. */
const openDrawn = ({ desk, look }: FullScreen, frames: Frames): Ink =>
  render(<App desk={desk} {...look(desk.state().settings)} look={look} paint={frames.paint} />, {
    stdout: silentTwin(process.stdout, frames.written),
    exitOnCtrlC: false,
    patchConsole: false,
    debug: true,
  });

const traceOf = (error: unknown): string => (error instanceof Error ? (error.stack ?? error.message) : String(error));

/** The ways out: each is taken once, gives the terminal back first, and stays open whatever goes wrong on it. */
function wayOut(screen: FullScreen, frames: Frames, ink: Ink, resolve: (code: number) => void) {
  let over = false;
  const finish = (code: number, lastWords?: string): void => {
    if (over) return;
    over = true;
    frames.close();
    screen.terminal.leave();
    if (lastWords) process.stderr.write(`${lastWords}\n`);
    // All marks are on the disk by now.
    setTimeout(() => resolve(code), LAST_WAIT);
    void screen.close().finally(() => resolve(code));
    try {
      ink.unmount();
    } catch (error) {
      screen.log(`while leaving: ${String(error)}`);
    }
  };
  const crash = (error: unknown): void => {
    screen.log(traceOf(error));
    const sorry = 'standside stopped because of a mistake in the program; every mark is kept.';
    finish(1, `${sorry} What happened is in ${screen.logPath}.`);
  };
  return { finish, crash, isOver: () => over };
}

/** Sleeping and waking: raw mode hands Ctrl-Z to the program, and with the whole group stopped the shell is back. */
function sleeping({ desk, terminal }: FullScreen, frames: Frames, isOver: () => boolean) {
  const suspend = (): void => {
    desk.rest();
    // What React still has to draw must not land on the shell's screen.
    frames.hold();
    terminal.leave();
    process.kill(0, 'SIGSTOP');
  };
  const resume = (): void => {
    if (isOver()) return;
    terminal.enter();
    frames.repeat();
  };
  return { suspend, resume };
}

/** Resolves with the exit code. */
export function runFullScreen(screen: FullScreen): Promise<number> {
  const { desk, terminal, colour } = screen;
  return new Promise((resolve) => {
    terminal.enter();
    const isDrawn = screen.manner === 'drawn';
    const frames = isDrawn ? createFrames(process.stdout, colour ? COLOURS : PLAIN) : NO_FRAMES;
    const ink = isDrawn ? openDrawn(screen, frames) : openLines(screen);
    setTimeout(() => desk.learn(), LEARN_AFTER);
    const { finish, crash, isOver } = wayOut(screen, frames, ink, resolve);
    const { suspend, resume } = sleeping(screen, frames, isOver);
    desk.onLeave(() => finish(0));
    desk.onSuspend(suspend);
    for (const [signal, code] of Object.entries(SIGNALS)) process.on(signal, () => finish(code));
    process.on('SIGTSTP', suspend);
    process.on('SIGCONT', resume);
    process.on('uncaughtException', crash);
    process.on('unhandledRejection', crash);
    // A mistake while drawing ends Ink's tree.
    ink.waitUntilExit().catch(crash);
  });
}
