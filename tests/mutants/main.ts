/**
 * Mutation testing, by StrykerJS: small deliberate errors in the source, and whether a test notices.
 *
 *     npm run mutants                          a seeded sample of all five folders
 *     npm run mutants -- --seed 5 --size 900   another, larger one
 *     npm run mutants -- src/ladder/wall       every mutant of a folder or a file, tried on its own folder's tests
 *
 * The table and the survivors go to `reports/`.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { mutantsIn } from './mutant-list.ts';
import { type Mutant, folderOf, nameOf } from './mutant.ts';
import { CHOSEN } from './only-chosen.ts';
import { type Tried, survivorsOf, tableOf } from './report.ts';
import { sampled } from './sample.ts';

/** See `own-tests-first`, which is read by vitest and not by this program. */
const OWN_TESTS_ONLY = 'STANDSIDE_OWN_TESTS_ONLY';

const FOLDERS = ['src/ladder', 'src/music', 'src/plan', 'src/practice', 'src/journal'];
const SEED = 9;
const SIZE = 600;
const REPORTS = 'reports';

/** `rangeOf(mutant)` is 'src/ladder/wall/wall.ts:63:7-63:28', as StrykerJS takes it: columns from 0. */
const rangeOf = ({ fileName, location: { start, end } }: Mutant): string =>
  `${fileName}:${start.line}:${start.column - 1}-${end.line}:${end.column - 1}`;

const PLUGIN = fileURLToPath(new URL('./only-chosen.js', import.meta.url));

/** Tests the mutants in these stretches; with names, only those that are named. */
async function tested(mutate: readonly string[], names: readonly string[] | null): Promise<readonly Tried[]> {
  const folder = mkdtempSync(join(tmpdir(), 'standside-mutants-'));
  process.env[CHOSEN] = join(folder, 'chosen.json');
  writeFileSync(process.env[CHOSEN], JSON.stringify(names ?? []));
  // A property that holds for thirty draws and not for a hundred is rare; time is not.
  process.env['PROPERTY_RUNS'] = '30';
  try {
    const results = await new Stryker({
      mutate: [...mutate],
      testRunner: 'vitest',
      vitest: { configFile: 'tests/mutants/vitest.config.ts' },
      coverageAnalysis: 'perTest',
      plugins: ['@stryker-mutator/vitest-runner', PLUGIN],
      checkers: names ? ['only-chosen'] : [],
      reporters: [process.stdout.isTTY ? 'progress' : 'progress-append-only'],
      ignorePatterns: ['dist', REPORTS],
      // It would read this file through an interface that TypeScript 7 no longer has.
      tsconfigFile: 'none.json',
      // A machine with both hands full is slow, not caught in a loop.
      timeoutMS: 10_000,
      timeoutFactor: 2,
      dryRunTimeoutMinutes: 30,
    }).runMutationTest();
    return results.map((one) => ({ ...one, fileName: relative(process.cwd(), one.fileName) }));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function sample(seed: number, size: number): Promise<string> {
  const all = await mutantsIn(FOLDERS.map((folder) => `${folder}/`));
  const chosen = sampled(all, ({ fileName }) => folderOf(fileName), size, seed);
  process.stdout.write(`${chosen.length} of ${all.length} mutants, seed ${seed}\n`);
  const names = new Set(chosen.map(nameOf));
  const tried = (await tested(chosen.map(rangeOf), [...names])).filter((one) => names.has(nameOf(one)));
  return report(`${chosen.length} of ${all.length} mutants, seed ${seed}`, tried, folderOf);
}

async function whole(paths: readonly string[]): Promise<string> {
  process.env[OWN_TESTS_ONLY] = '1';
  const all = await mutantsIn(
    paths.map((path) => (statSync(path).isDirectory() ? `${path.replace(/\/$/, '')}/` : path)),
  );
  const tried: Tried[] = [];
  // One file at a time: what is not changed runs as fast as ever.
  for (const file of new Set(all.map(({ fileName }) => fileName))) {
    process.stdout.write(`${file}\n`);
    tried.push(...(await tested([file], null)));
  }
  return report(`every mutant of ${paths.join(', ')}`, tried, (fileName) => fileName);
}

const report = (title: string, tried: readonly Tried[], groupOf: (fileName: string) => string): string =>
  `${title}\n\n${tableOf(tried, groupOf)}\n\n` +
  `Not noticed by any test:\n\n${survivorsOf(tried, (fileName) => readFileSync(fileName, 'utf8'))}\n`;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    seed: { type: 'string', default: String(SEED) },
    size: { type: 'string', default: String(SIZE) },
  },
});
const text = positionals.length > 0 ? await whole(positionals) : await sample(Number(values.seed), Number(values.size));
const path = join(REPORTS, `mutants${positionals.map((one) => `-${one.replaceAll(/\W+/gu, '-')}`).join('')}.txt`);
mkdirSync(REPORTS, { recursive: true });
writeFileSync(path, text);
process.stdout.write(`\n${text.slice(0, text.indexOf('\n\nNot noticed'))}\n\nSurvivors: ${path}\n`);
