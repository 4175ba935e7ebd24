/** Wires the program to its sound. */
import type { SoundOutput } from '../music/sound.ts';
import { type ProgramOptions, runProgram } from '../runtime/open-program.ts';

export async function openFullScreen(options: ProgramOptions): Promise<number> {
  const code = await runProgram(options, ({ logPath, silent }): SoundOutput => {
    void logPath; void silent;
    return { send: () => {}, listen: () => () => {}, close: async () => {} };
  });
  return code;
}
