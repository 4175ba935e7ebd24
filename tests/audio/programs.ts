/** Runs the programs that judge what was rendered; `tests/programs.ts` knows which are there. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const run = (program: string, args: readonly string[]): string =>
  execFileSync(program, args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'], maxBuffer: 64e6 });

/** What a program says on stderr, where sox puts its statistics. */
export const complaint = (program: string, args: readonly string[]): string =>
  spawnSync(program, args, { encoding: 'utf8' }).stderr;

export const scratch = (): string => mkdtempSync(join(tmpdir(), 'standside-sound-'));
