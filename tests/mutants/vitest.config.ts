import { defineConfig, mergeConfig } from 'vitest/config';
import base from '../vitest.config.ts';
import { OwnTestsFirst } from './own-tests-first.ts';

/** The tests of the pure folders and of the screens, in an order in which a mutant is found out soon. */
export default mergeConfig(
  base,
  defineConfig({
    test: {
      exclude: ['tests/{audio,cli,house,runtime}/**'],
      sequence: { sequencer: OwnTestsFirst },
    },
  }),
);
