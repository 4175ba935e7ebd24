/** The program's commands, each with its arguments and options; what they do is loaded when one is asked for. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Command } from 'commander';
import { harmless } from '../common/harmless-text.ts';
import { Trouble } from '../common/trouble.ts';
import { packageRoot } from '../audio/package-folder.ts';
import { didYouMean } from '../common/nearest-word.ts';
import { addBestsCommand } from './usage/bests.ts';
import { addDemoCommand } from './usage/demo.ts';
import { addDrillCommand } from './usage/drill.ts';
import { addExercisesCommand } from './usage/exercises.ts';
import { addJournalCommand } from './usage/journal.ts';
import { addLadderCommand } from './usage/ladder.ts';
import { addLagCommand } from './usage/lag.ts';
import { addListenCommand, addTendenciesCommand } from './usage/listen.ts';
import { addPracticeCommand } from './usage/practice.ts';
import { addRenderCommand } from './usage/render.ts';
import { addRoutineCommand } from './usage/routine.ts';
import { addSoundCommand } from './usage/sound.ts';
import { addTodayAction } from './usage/today.ts';
import { addReportCommand, addStudentsCommand, addWeeksCommand } from './usage/weeks.ts';
import { addWriteCommand } from './usage/write.ts';

const version = (): string =>
  (JSON.parse(readFileSync(join(packageRoot(), 'package.json'), 'utf8')) as { version: string }).version;

/** In the order in which the help shows them. */
const ADD = [
  addTodayAction,
  addPracticeCommand,
  addDemoCommand,
  addExercisesCommand,
  addDrillCommand,
  addWriteCommand,
  addRoutineCommand,
  addBestsCommand,
  addWeeksCommand,
  addReportCommand,
  addStudentsCommand,
  addJournalCommand,
  addLadderCommand,
  addRenderCommand,
  addListenCommand,
  addTendenciesCommand,
  addSoundCommand,
  addLagCommand,
];

function createProgram(): Command {
  const program = new Command('standside');
  program
    .description('A practice coach beside the stand: click, drone, tempo ladder, tonguing drills, timed routines.')
    .version(version())
    .option('--data <dir>', 'keep the journal in this folder (default: STANDSIDE_DATA, or the platform’s own)')
    .showSuggestionAfterError()
    .helpCommand(true)
    .exitOverride();
  for (const add of ADD) add(program);
  return program;
}

/** What a command was called before, and what it is called now. */
const RENAMED: Readonly<Record<string, string>> = { review: 'weeks', doctor: 'sound', tap: 'lag' };

/** A word that is no command would otherwise reach the Today screen as one too many. */
function checkCommand(program: Command, words: readonly string[]): void {
  const [asked, about] = program.parseOptions([...words]).operands;
  const first = asked === 'help' ? about : asked;
  const names = program.commands.map((command) => command.name());
  if (first === undefined || names.includes(first)) return;
  const renamed = Object.hasOwn(RENAMED, first) ? RENAMED[first] : undefined;
  if (renamed !== undefined) throw new Trouble(`The command '${first}' is called '${renamed}' now.`, 2);
  const hint = didYouMean(first, names, `the commands are ${names.join(', ')}.`);
  throw new Trouble(`There is no command '${harmless(first, 40)}'; ${hint}`, 2);
}

/**
 * Does what the words of a command line ask for.
 * @throws Trouble, and CommanderError for words that go with no command.
 */
export async function run(words: readonly string[]): Promise<void> {
  const program = createProgram();
  checkCommand(program, words);
  await program.parseAsync([...words], { from: 'user' });
}
