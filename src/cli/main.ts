#!/usr/bin/env node
import { exitCodeOf } from './exit-code.ts';
import { run } from './program.ts';

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // The reader of a pipe went away: nobody is left to tell.
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

try {
  await run(process.argv.slice(2));
} catch (error) {
  process.exitCode = exitCodeOf(error);
}
