#!/usr/bin/env node
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Command, CommanderError } from 'commander';
import { harmless } from '../common/harmless-text.ts';
import { nearest } from '../common/nearest-word.ts';
import { packageRoot } from '../audio/package-folder.ts';
import { Trouble } from '../common/trouble.ts';
import { addBestsCommand } from './commands/bests.ts';
import { addDoctorCommand } from './commands/doctor.ts';
import { addDrillCommand } from './commands/drill.ts';
import { addExercisesCommand } from './commands/exercises.ts';
import { addJournalCommand } from './commands/journal.ts';
import { addLadderCommand } from './commands/ladder.ts';
import { addReviewCommand } from './commands/review.ts';
import { addPracticeCommand, addTodayAction } from './commands/practice.ts';
import { addRenderCommand } from './commands/render.ts';
import { addRoutineCommand } from './commands/routine.ts';
import { addTapCommand } from './commands/tap.ts';
import { addWriteCommand } from './commands/write.ts';

const version = (): string =>
  (JSON.parse(readFileSync(join(packageRoot(), 'package.json'), 'utf8')) as { version: string }).version;

function createProgram(): Command {
  const program = new Command('standside');
  program
    .description('A practice coach beside the stand: click, drone, tempo ladder, tonguing drills, timed routines.')
    .version(version())
    .option('--data <dir>', 'keep the journal in this folder (default: STANDSIDE_DATA, or the platform’s own)')
    .showSuggestionAfterError()
    .exitOverride();
  addTodayAction(program);
  addPracticeCommand(program);
  addExercisesCommand(program);
  addDrillCommand(program);
  addWriteCommand(program);
  addRoutineCommand(program);
  addBestsCommand(program);
  addReviewCommand(program);
  addJournalCommand(program);
  addLadderCommand(program);
  addRenderCommand(program);
  addDoctorCommand(program);
  addTapCommand(program);
  return program;
}

/** Expected trouble is one sentence; only a mistake in the program shows where it happened. */
function fail(error: unknown): void {
  if (error instanceof CommanderError) {
    process.exitCode = error.exitCode === 0 ? 0 : 2;
    return;
  }
  if (error instanceof Trouble) {
    process.stderr.write(`standside: ${error.message}\n`);
    process.exitCode = error.exitCode;
    return;
  }
  const what = error instanceof Error ? error.message : String(error);
  process.stderr.write(`standside: a mistake in the program: ${what}. Nothing that was marked is lost.\n`);
  process.exitCode = 70;
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // The reader of a pipe went away: nobody is left to tell.
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

/** A word that is no command would otherwise reach the Today screen as one too many. */
function checkCommand(program: Command, words: readonly string[]): void {
  const [first] = program.parseOptions([...words]).operands;
  const names = program.commands.map((command) => command.name());
  if (first === undefined || first === 'help' || names.includes(first)) return;
  const meant = nearest(first, names);
  const hint = meant === null ? `the commands are ${names.join(', ')}` : `did you mean '${meant}'?`;
  throw new Trouble(`There is no command '${harmless(first, 40)}'; ${hint}${meant === null ? '.' : ''}`, 2);
}

async function main(): Promise<void> {
  const program = createProgram();
  checkCommand(program, process.argv.slice(2));
  await program.parseAsync();
}

await main().catch(fail);
