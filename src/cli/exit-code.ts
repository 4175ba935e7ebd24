import { complain, remark } from './output/print.ts';
import { CommanderError } from 'commander';
import { harmless } from '../common/harmless-text.ts';
import { Trouble } from '../common/trouble.ts';

/** Words that do not go together: exit code of a wrong command line. */
const WRONG_WORDS = 2;

/** EX_SOFTWARE of sysexits.h (4.3BSD): a mistake in the program itself. */
const PROGRAM_AT_FAULT = 70;

/** Says on stderr what went wrong, where that was not said yet; gives the exit code. */
export function exitCodeOf(error: unknown): number {
  // Commander has said it already; --help and --version end this way too.
  if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : WRONG_WORDS;
  if (error instanceof Trouble) {
    remark(error.message);
    return error.exitCode;
  }
  const what = harmless(error instanceof Error ? error.message : String(error), 300);
  complain(`standside: a mistake in the program: ${what}. Nothing that was marked is lost.`);
  return PROGRAM_AT_FAULT;
}
