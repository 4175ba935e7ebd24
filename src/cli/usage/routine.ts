import type { Command } from 'commander';
import type { CheckOptions } from '../commands/routine/check.ts';
import type { FitOptions } from '../commands/routine/fit.ts';
import type { NewOptions } from '../commands/routine/new.ts';
import type { ShowOptions } from '../commands/routine/show.ts';

function addCheck(routine: Command): void {
  routine
    .command('check [routines...]')
    .description('tell what is wrong with routines, by name or file, with line and column; without one, all of them')
    .option('--json', 'print JSON')
    .action(async (names: readonly string[], _: unknown, command: Command) => {
      const { checkRoutines } = await import('../commands/routine/check.ts');
      checkRoutines(names, command.optsWithGlobals<CheckOptions>());
    });
}

function addShow(routine: Command): void {
  routine
    .command('show <routine>')
    .description('print a routine: its parts, blocks and minutes')
    .option('--json', 'print JSON, every default filled in')
    .action(async (name: string, _: unknown, command: Command) => {
      const { showRoutine } = await import('../commands/routine/show.ts');
      await showRoutine(name, command.optsWithGlobals<ShowOptions>());
    });
}

function addNew(routine: Command): void {
  routine
    .command('new <name>')
    .description("begin a routine file; a bare name goes into the player's own folder")
    .option('--instrument <name>', 'what it is for', 'cornet')
    .option('--title <words>', 'its title')
    .option('--force', 'write over a file that is there')
    .action(async (name: string, _: unknown, command: Command) => {
      const { newRoutine } = await import('../commands/routine/new.ts');
      newRoutine(name, command.optsWithGlobals<NewOptions>());
    });
}

function addFit(routine: Command): void {
  routine
    .command('fit <routine>')
    .description('fit a routine to the minutes there are, after what was played before')
    .requiredOption('--minutes <n>', 'minutes there are, 1 to 600')
    .option('--order <order>', 'blocked (one after the other) or interleaved (in turns of three minutes)')
    .option('--parts <names>', 'only these parts, separated by commas')
    .option('--seed <n>', 'settles draws and ties; by default the day does')
    .option('--json', 'print JSON')
    .action(async (name: string, _: unknown, command: Command) => {
      const { fitRoutine } = await import('../commands/routine/fit.ts');
      await fitRoutine(name, command.optsWithGlobals<FitOptions>());
    });
}

/** `standside routine check | show | new | fit`. */
export function addRoutineCommand(program: Command): void {
  const routine = program.command('routine').description('check, show, begin and fit routine files');
  addCheck(routine);
  addShow(routine);
  addNew(routine);
  addFit(routine);
}
