/**
 * Which tests a mutant is tried on, and in which order: its run ends with the first that fails, so those of its own
 * file come first, then those of its folder.
 *
 * What is made while a file is read (a table, a constant) cannot be traced to single tests, so StrykerJS would try it
 * on every test that reads the file, which takes minutes for each. Such a mutant is tried on its own folder's only; and
 * so is every mutant when a folder is looked at by itself: its own tests are to find it out.
 */
import { basename } from 'node:path';
import { BaseSequencer, type TestSpecification, type Vitest } from 'vitest/node';

/** `nearness('src/ladder/wall/wall.ts', 'tests/ladder/wall.test.ts')` is 2, the most. */
export function nearness(source: string, test: string): number {
  const folder = /(?:^|\/)src\/(\w+)\//.exec(source)?.[1];
  if (!test.includes(`tests/${folder}/`)) return 0;
  return basename(test).startsWith(`${basename(source).replace(/\.tsx?$/, '')}.test.`) ? 2 : 1;
}

/** With '1' in the environment no other folder's tests are asked. */
const OWN_TESTS_ONLY = process.env['STANDSIDE_OWN_TESTS_ONLY'] === '1';

/** The files that are changed: one in the run of a mutant, all in the first run of the tests as they are. */
const sourcesOf = ({ config }: Vitest): readonly string[] =>
  (config as { readonly related?: readonly string[] }).related ?? [];

/** Whether this is the run of a mutant that no single tests were chosen for. */
function isUntraced(vitest: Vitest): boolean {
  const project = vitest.getRootProject();
  const { mode } = project.getProvidedContext() as { readonly mode?: string };
  return mode === 'mutant' && project.config.testNamePattern === undefined;
}

export class OwnTestsFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sources = sourcesOf(this.ctx);
    const near = ({ moduleId }: TestSpecification): number =>
      Math.max(0, ...sources.map((source) => nearness(source, moduleId)));
    const sorted = (await super.sort(files)).toSorted((a, b) => near(b) - near(a));
    return OWN_TESTS_ONLY || isUntraced(this.ctx) ? sorted.filter((file) => near(file) > 0) : sorted;
  }
}
