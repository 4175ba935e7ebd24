/** Wires the full-screen program to its sound and its clock. */
import { createSound } from '../../audio/process/client.ts';
import { createSilentSound } from '../../audio/process/silent-sound.ts';
import { type Clock, fasterClock, systemClock } from '../../runtime/clock.ts';
import { endProcess } from '../../runtime/screen/terminal.ts';
import { type ProgramOptions, type SoundNeeds, runProgram } from '../../runtime/open-program.ts';
import type { SoundOutput } from '../../music/sound/sound-commands.ts';
import type { DataOption } from '../options/data-option.ts';
import { numberOption } from '../options/number-option.ts';

export interface FullScreenOptions extends DataOption {
  readonly silent?: boolean;
  readonly lines?: boolean;
  /** For looking at a whole sitting in a minute. */
  readonly clockRate?: string;
}

/** The line to begin with; null opens Today. */
export type LineOnStand = ProgramOptions['line'];

const FASTEST = 1000;

function clockOf(text: string | undefined): Clock {
  if (text === undefined) return systemClock;
  const right = `a number from 1 to ${FASTEST}`;
  const rate = numberOption(text, { option: 'clock-rate', right, fits: (n) => n >= 1 && n <= FASTEST });
  return rate === 1 ? systemClock : fasterClock(rate);
}

/** A screen reader is announced in the way that Ink asks for (its readme, 'Screen Reader Support'). */
const isReadOut = (env: NodeJS.ProcessEnv): boolean => env['INK_SCREEN_READER'] === 'true';

const soundFor = ({ logPath, silent, settings: { device, latency, tapOffset } }: SoundNeeds): SoundOutput =>
  silent ? createSilentSound() : createSound({ device, latency, offset: tapOffset, logFile: logPath });

/** Everything is closed by then. */
export async function fullScreen(options: FullScreenOptions, line: LineOnStand): Promise<never> {
  const { data, silent = false, lines = isReadOut(process.env), clockRate } = options;
  const code = await runProgram({ data, silent, inLines: lines, line, clock: clockOf(clockRate) }, soundFor);
  return await endProcess(code);
}
