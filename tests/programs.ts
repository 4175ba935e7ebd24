/**
 * Programs from outside the project that judge what it makes. Where one is not installed its tests are skipped, and
 * one line at the end of the run names the Debian package (`tests/skipped-programs.ts`). With REQUIRE_PROGRAMS=1,
 * as `.ci/run` sets it, a missing program is a failure.
 */
import { accessSync, appendFileSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { it, type TestAPI } from 'vitest';

/** By name of the program, or by path of the file. */
export const PACKAGES = {
  xmllint: 'libxml2-utils',
  abc2midi: 'abcmidi',
  abcm2ps: 'abcm2ps',
  aubioonset: 'aubio-tools',
  aubiopitch: 'aubio-tools',
  sox: 'sox',
  fluidsynth: 'fluidsynth',
  '/usr/share/sounds/sf2/FluidR3_GM.sf2': 'fluid-soundfont-gm',
  pulseaudio: 'pulseaudio',
  parec: 'pulseaudio-utils',
  pgrep: 'procps',
  tmux: 'tmux',
} as const;

export type Program = keyof typeof PACKAGES;

/** `placesOf('sox')` is one path for each folder of PATH; a path stands for itself. */
const placesOf = (program: Program): readonly string[] =>
  program.startsWith('/')
    ? [program]
    : (process.env['PATH'] ?? '').split(delimiter).map((folder) => join(folder, program));

function isThere(program: Program, path: string): boolean {
  try {
    accessSync(path, program.startsWith('/') ? constants.R_OK : constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

const isInstalled = (program: Program): boolean => placesOf(program).some((path) => isThere(program, path));

/** What the run says at its end, and what a run that requires the program fails with. */
export const sentenceOf = (program: Program): string =>
  `${program} is not installed (Debian package ${PACKAGES[program]})`;

/** Where tests leave the names of what they missed; set by `tests/skipped-programs.ts`. */
export const MISSED = 'STANDSIDE_MISSED_PROGRAMS';

function miss(program: Program): void {
  if (process.env['REQUIRE_PROGRAMS'] === '1')
    it(`has ${program}`, () => {
      throw new Error(`${sentenceOf(program)}, and REQUIRE_PROGRAMS=1 asks for it.`);
    });
  const list = process.env[MISSED];
  if (list) appendFileSync(list, `${program}\n`);
}

/** `it`, for tests that need programs from outside: `itWith('sox')('are what sox reads', () => …)`. */
export function itWith(...programs: readonly Program[]): TestAPI {
  const missing = programs.filter((program) => !isInstalled(program));
  missing.forEach(miss);
  return missing.length === 0 ? it : (it.skip as TestAPI);
}
