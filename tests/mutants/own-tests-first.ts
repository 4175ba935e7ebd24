/**
 * Which tests a mutant is tried on, and in which order: its run ends with the first that fails, so those of its own
 * file come first, then those of its folder.
 *
 * What is made while a file is read (a table, a constant) cannot be traced to single tests, so StrykerJS would try it
 * on every test that reads the file, which takes minutes for each. Such a mutant is tried on its own folder's only.
 */
import { basename } from 'node:path';
import { BaseSequencer, type TestSpecification, type Vitest } from 'vitest/node';

/** `nearness('src/ladder/wall/wall.ts', 'tests/ladder/wall.test.ts')` is 2, the most. */
export function nearness(source: string, test: string): number {
  const folder = /(?:^|\/)src\/(\w+)\//.exec(source)?.[1];
  if (!test.includes(`tests/${folder}/`)) return 0;
  return basename(test).startsWith(`${basename(source).replace(/\.tsx?$/, '')}.test.`) ? 2 : 1;
}

/** The file of the mutant, and whether single tests are chosen already; null in a run without one. */
function mutantOf(vitest: Vitest): { readonly source: string; readonly traced: boolean } | null {
  const { mode } = vitest.getRootProject().getProvidedContext() as { readonly mode?: string };
  const [source = ''] = (vitest.config as { readonly related?: readonly string[] }).related ?? [];
  const traced = vitest.getRootProject().config.testNamePattern !== undefined;
  return mode === 'mutant' ? { source, traced } : null;
}

export class OwnTestsFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const mutant = mutantOf(this.ctx);
    const sorted = await super.sort(files);
    if (!mutant) return sorted;
    const near = ({ moduleId }: TestSpecification): number => nearness(mutant.source, moduleId);
    return sorted.filter((file) => mutant.traced || near(file) > 0).toSorted((a, b) => near(b) - near(a));
  }
}
