/** Wires the program to its sound. */
import { createSound } from '../audio/process/client.ts';
import { createSilentSound } from '../audio/process/silent-sound.ts';
import { type ProgramOptions, runProgram } from '../runtime/open-program.ts';

/** Runs the full-screen program; gives the exit code. */
export const openFullScreen = (options: ProgramOptions): Promise<number> =>
  runProgram(options, ({ logPath, silent, settings: { device, latency, tapOffset } }) =>
    silent ? createSilentSound() : createSound({ device, latency, offset: tapOffset, logFile: logPath }),
  );
