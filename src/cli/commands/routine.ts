import type { Command } from 'commander';
import type { FileTrouble } from '../../plan/file/place-in-file.ts';
import type { Plan } from '../../plan/today/plan-items.ts';
import type { Routine } from '../../plan/routine/routine.ts';
import { askedFolder, printJson, savedFold } from '../saved-data.ts';

const print = (lines: readonly string[]): void => void process.stdout.write(`${lines.join('\n')}\n`);

/** Names with an ending or a slash are files; others are looked for among the player's and the packaged routines. */
const isPath = (name: string): boolean => /[/\\]|\.ya?ml$/.test(name);

async function failWith(troubles: readonly FileTrouble[]): Promise<never> {
  const { troubleLine } = await import('../../plan/file/place-in-file.ts');
  const { Trouble } = await import('../../common/trouble.ts');
  const [first, ...others] = troubles;
  for (const trouble of others.slice(0, 50)) process.stderr.write(`${troubleLine(trouble)}\n`);
  throw new Trouble(first === undefined ? 'The routine cannot be used.' : troubleLine(first));
}

/** One routine by name or file. @throws Trouble after printing everything that is wrong with its file. */
async function routineAsked(name: string, command: Command): Promise<Routine> {
  if (!isPath(name)) {
    const { findRoutine } = await import('../../runtime/files/routine-finder.ts');
    const { routinesOf } = await import('../../runtime/files/routine-cache.ts');
    return findRoutine(await routinesOf((await askedFolder(command)).path), name).routine;
  }
  const { readRoutineFile } = await import('../../runtime/files/routine-reader.ts');
  const parsed = readRoutineFile(name);
  return 'routine' in parsed ? parsed.routine : failWith(parsed.troubles);
}

interface Checked {
  readonly file: string;
  readonly sound: boolean;
  readonly summary: string;
  /** What is worth a word in a file that is sound. */
  readonly remarks: readonly string[];
  readonly troubles: readonly FileTrouble[];
}

/** A bare name is looked for where `show` and `fit` look for it, whether its file is sound or not. */
async function filesNamed(names: readonly string[], known: readonly string[]): Promise<readonly string[]> {
  const { nearest } = await import('../../common/nearest-word.ts');
  const { shown } = await import('../../plan/file/place-in-file.ts');
  const { basename } = await import('node:path');
  const byId = new Map(known.map((file) => [basename(file).replace(/\.ya?ml$/, ''), file]));
  return Promise.all(
    names.map((name) => {
      const found = isPath(name) ? name : byId.get(name);
      if (found !== undefined) return found;
      const meant = nearest(name, byId.keys());
      return wrong(
        `There is no routine ${shown(name)}; ` +
          `${meant === null ? `there are ${[...byId.keys()].join(', ')}.` : `did you mean '${meant}'?`}`,
      );
    }),
  );
}

async function checkedFiles(files: readonly string[], command: Command): Promise<readonly Checked[]> {
  const { readRoutineFile } = await import('../../runtime/files/routine-reader.ts');
  const { routineFiles, routineFolders } = await import('../../runtime/files/routine-finder.ts');
  const { summaryLine } = await import('../routine-text.ts');
  const { remarksOn } = await import('../../plan/file/file-remarks.ts');
  const isKnownNeeded = files.length === 0 || !files.every(isPath);
  const known = isKnownNeeded ? routineFiles(routineFolders((await askedFolder(command)).path)) : [];
  const all = files.length > 0 ? await filesNamed(files, known) : known;
  return all.map((file) => {
    const parsed = readRoutineFile(file);
    if ('troubles' in parsed) return { file, sound: false, summary: '', remarks: [], troubles: parsed.troubles };
    return {
      file,
      sound: true,
      summary: summaryLine(parsed.routine),
      remarks: remarksOn(parsed.routine),
      troubles: [],
    };
  });
}

async function check(files: readonly string[], { json }: { json?: boolean }, command: Command): Promise<void> {
  const checked = await checkedFiles(files, command);
  const { troubleLine } = await import('../../plan/file/place-in-file.ts');
  if (json) printJson(checked);
  else {
    for (const { summary, remarks } of checked.filter(({ sound }) => sound))
      print([`sound  ${summary}`, ...remarks.map((remark) => `  ${remark}`)]);
    for (const trouble of checked.flatMap(({ troubles }) => troubles))
      process.stderr.write(`${troubleLine(trouble)}\n`);
  }
  if (checked.some(({ sound }) => !sound)) process.exitCode = 1;
}

async function show(name: string, { json }: { json?: boolean }, command: Command): Promise<void> {
  const routine = await routineAsked(name, command);
  const { routineLines } = await import('../routine-text.ts');
  if (json) printJson(routine);
  else print(routineLines(routine));
}

interface NewOptions {
  readonly instrument: string;
  readonly title?: string;
  readonly force?: boolean;
}

async function instrumentAsked(name: string): Promise<string> {
  const { INSTRUMENTS, instrumentNamed } = await import('../../music/pitch/instruments.ts');
  const { nearest } = await import('../../common/nearest-word.ts');
  const { shown } = await import('../../plan/file/place-in-file.ts');
  const { Trouble } = await import('../../common/trouble.ts');
  const found = instrumentNamed(name);
  if (found !== null) return found.id;
  const meant = nearest(
    name,
    INSTRUMENTS.map(({ id }) => id),
  );
  throw new Trouble(
    `--instrument is ${shown(name)}, which is not known; ` +
      `${meant === null ? `it is one of ${INSTRUMENTS.map(({ id }) => id).join(', ')}.` : `did you mean '${meant}'?`}`,
  );
}

/** A bare name becomes a file in the player's own folder. */
async function create(name: string, { instrument, title, force = false }: NewOptions, command: Command): Promise<void> {
  const id = await instrumentAsked(instrument);
  const { writeNewRoutine } = await import('../../runtime/files/new-routine-file.ts');
  const { newRoutineText } = await import('../new-routine.ts');
  const folder = isPath(name) ? null : (await askedFolder(command)).routines;
  const path = writeNewRoutine(name, folder, (stem) => newRoutineText(title ?? stem, id), force);
  print([`${path} is written; 'standside routine check ${path}' tells whether it is still sound after a change.`]);
}

interface FitOptions {
  readonly minutes: string;
  readonly order?: Plan['order'];
  readonly parts?: string;
  readonly seed?: string;
  readonly json?: boolean;
}

async function wrong(sentence: string): Promise<never> {
  const { Trouble } = await import('../../common/trouble.ts');
  throw new Trouble(sentence);
}

async function minutesAsked(text: string): Promise<number> {
  const { wrongMinutes } = await import('../../plan/today/todays-plan.ts');
  const { shown } = await import('../../plan/file/place-in-file.ts');
  if (!/^\d+(\.\d+)?$/.test(text.trim())) return wrong(`--minutes is ${shown(text)}; write a number like 25.`);
  const sentence = wrongMinutes(Number(text));
  return sentence === null ? Number(text) : wrong(`--minutes: ${sentence}`);
}

async function partsAsked(text: string | undefined, { parts }: Routine): Promise<readonly string[] | null> {
  if (text === undefined) return null;
  const { nearest } = await import('../../common/nearest-word.ts');
  const { shown } = await import('../../plan/file/place-in-file.ts');
  const asked = text.split(',').map((part) => part.trim());
  const known = parts.map(({ id }) => id);
  const unknown = asked.find((part) => !known.includes(part));
  if (unknown === undefined) return asked;
  const meant = nearest(unknown, known);
  return wrong(
    `There is no part ${shown(unknown)}; ` +
      `${meant === null ? `the parts are ${known.join(', ')}.` : `did you mean '${meant}'?`}`,
  );
}

async function orderAsked(text: string | undefined): Promise<Plan['order'] | null> {
  if (text === undefined || text === 'blocked' || text === 'interleaved') return text ?? null;
  const { shown } = await import('../../plan/file/place-in-file.ts');
  return wrong(`--order is ${shown(text)}; write blocked or interleaved.`);
}

async function seedAsked(text: string | undefined, usual: string): Promise<number> {
  const { seedOf } = await import('../../practice/screens/today-keys.ts');
  const { shown } = await import('../../plan/file/place-in-file.ts');
  if (text === undefined) return seedOf(usual);
  return /^\d{1,9}$/.test(text) ? Number(text) : wrong(`--seed is ${shown(text)}; write a whole number.`);
}

async function fitAsked(name: string, options: FitOptions, command: Command): Promise<void> {
  const [minutes, order] = [await minutesAsked(options.minutes), await orderAsked(options.order)];
  const routine = await routineAsked(name, command);
  if (routine.parts.length === 0) return wrong(`The routine '${routine.id}' has no parts; there is nothing to fit.`);
  const parts = await partsAsked(options.parts, routine);
  const folder = await askedFolder(command);
  const [{ readSettings }, { stampOf, systemClock }, { fit }, { knownOn }, { dayView }, { planLines }] =
    await Promise.all([
      import('../../runtime/files/settings.ts'),
      import('../../runtime/clock.ts'),
      import('../../plan/today/todays-plan.ts'),
      import('../../plan/today/played-before.ts'),
      import('../../plan/today/day-overview.ts'),
      import('../routine-text.ts'),
    ]);
  const { day } = stampOf(systemClock, (await readSettings(folder.path)).settings.dayStart);
  const fold = await savedFold(command);
  const known = knownOn(day, fold.others, [...fold.lines.values()]);
  const seed = await seedAsked(options.seed, day + routine.id);
  const plan = fit(routine, {
    minutes,
    known,
    seed,
    ...(order === null ? {} : { order }),
    ...(parts === null ? {} : { parts }),
  });
  const view = dayView(routine, plan, known, fold.others);
  if (options.json) printJson({ ...plan, day: view });
  else print(planLines(plan, view));
}

/** `standside routine check | show | new | fit`. */
export function addRoutineCommand(program: Command): void {
  const routine = program.command('routine').description('check, show, begin and fit routine files');
  routine
    .command('check [routines...]')
    .description('tell what is wrong with routines, by name or file, with line and column; without one, all of them')
    .option('--json', 'print JSON')
    .action(check);
  routine
    .command('show <routine>')
    .description('print a routine: its parts, blocks and minutes')
    .option('--json', 'print JSON, every default filled in')
    .action(show);
  routine
    .command('new <name>')
    .description("begin a routine file; a bare name goes into the player's own folder")
    .option('--instrument <name>', 'what it is for', 'cornet')
    .option('--title <words>', 'its title')
    .option('--force', 'write over a file that is there')
    .action(create);
  routine
    .command('fit <routine>')
    .description('fit a routine to the minutes there are, after what was played before')
    .requiredOption('--minutes <n>', 'minutes there are, 1 to 600')
    .option('--order <order>', 'blocked (one after the other) or interleaved (in turns of three minutes)')
    .option('--parts <names>', 'only these parts, separated by commas')
    .option('--seed <n>', 'settles draws and ties; by default the day does')
    .option('--json', 'print JSON')
    .action(fitAsked);
}
