// One bundle with a few chunks: reading two hundred small files took half of the start-up time.
import { defineConfig } from 'rolldown';

export default defineConfig({
  input: {
    'cli/main': 'src/cli/main.ts',
    'audio/child': 'src/audio/process/child.ts',
    'sounds/make': 'sounds/make.ts',
    'bench/compare-rules': 'tests/bench/compare-rules.ts',
    'bench/compare-estimate': 'tests/bench/compare-estimate.ts',
    'bench/compare-walls': 'tests/bench/compare-walls.ts',
    'bench/main': 'tests/bench/main.ts',
    'bench/live': 'tests/bench/live.ts',
    'bench/timer-loop': 'tests/bench/live/timer-loop.ts',
    'mutants/main': 'tests/mutants/main.ts',
    'mutants/only-chosen': 'tests/mutants/only-chosen.ts',
  },
  platform: 'node',
  // Native packages stay outside: they load their binaries from their own folder.
  external: ['node-web-audio-api', 'speaker', 'react-devtools-core', '@stryker-mutator/core'],
  transform: {
    define: { 'process.env.NODE_ENV': '"production"', 'process.env.DEV': '"false"' },
  },
  output: { dir: 'dist', format: 'esm', cleanDir: true, sourcemap: true, minify: 'dce-only' },
});
