/** Says once, when every test is done, which programs were missing and so which checks were not made. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { MISSED, type Program, sentenceOf } from './programs.ts';

export function setup(): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'standside-missed-'));
  const list = join(folder, 'programs');
  writeFileSync(list, '');
  process.env[MISSED] = list;
  return () => {
    const missed = new Set(readFileSync(list, 'utf8').split('\n').filter(Boolean)) as ReadonlySet<Program>;
    for (const program of [...missed].sort()) process.stdout.write(`Skipped: ${sentenceOf(program)}.\n`);
    rmSync(folder, { recursive: true });
  };
}
