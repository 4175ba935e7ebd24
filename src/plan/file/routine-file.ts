/** A routine file's text to a routine, or to everything that is wrong with it. */
import { checkWritten } from './file-mistakes.ts';
import type { Exercise } from '../routine/exercise.ts';
import { identified, qualifiedName } from '../routine/exercise-identity.ts';
import { type ReportSetting, exerciseOfWritten } from './exercise-defaults.ts';
import { type FileTrouble, type Path, START, inOrder, named, shown } from './place-in-file.ts';
import { harmless } from '../../common/harmless-text.ts';
import { DEFAULT_INSTRUMENT, INSTRUMENTS, type Instrument, instrumentNamed } from '../../music/pitch/instruments.ts';
import { type ReportMistake, partsOfWritten, poolOfWritten } from './block-defaults.ts';
import { didYouMean } from '../../common/nearest-word.ts';
import { asList } from './value-words.ts';
import type { Place } from '../../music/pitch/registers.ts';
import { type Breaks, DEFAULT_BREAKS, DEFAULT_LIMITS, type Part, type Pool, type Routine } from '../routine/routine.ts';
import { placeOf, placeTrouble } from './place-on-instrument.ts';
import type { WrittenBlock, WrittenPlace, WrittenRoutine } from './routine-schema.ts';
import { MOST } from './written-limits.ts';
import { type YamlText, readYaml } from './yaml-places.ts';

/** Gives the text of another file of the same folder, or one sentence why it cannot. */
export type ReadInclude = (fileName: string) => { readonly text: string } | { readonly trouble: string };

export type ParsedRoutine = { readonly routine: Routine } | { readonly troubles: readonly FileTrouble[] };

/** What is gathered while a file and those that it includes are read. */
interface Gathering {
  readonly exercises: Map<string, Exercise>;
  readonly pools: Map<string, Pool>;
  readonly troubles: FileTrouble[];
  readonly readInclude: ReadInclude;
  /** Files already taken in; a second include of the same file is nothing new. */
  readonly taken: Set<string>;
}

const reporter =
  (gathering: Gathering, yaml: YamlText, file: string): ReportMistake =>
  (path, sentence, which, further = 0) => {
    const { line, column } = yaml.place(path, which);
    gathering.troubles.push({ file, line, column: column + further, sentence: harmless(sentence, 400) });
  };

const idOf = (fileName: string): string => fileName.replace(/\.ya?ml$/, '');

/** Two exercises of a routine may not be kept under one name: nobody could tell them apart. */
function checkHistory(exercise: Exercise, { exercises }: Gathering, report: ReportMistake): void {
  const { id, name, history } = exercise;
  const other = [...exercises.values()].find((one) => one.id === id || qualifiedName(one) === history);
  if (other === undefined || other.name === name) return;
  const path = ['exercises', name, ...(history === undefined ? [] : ['history'])];
  report(
    path,
    `'${other.name}' is kept under '${id}' already; choose another name.`,
    history === undefined ? 'key' : 'value',
  );
}

function takeExercises(written: WrittenRoutine, file: string, gathering: Gathering, report: ReportMistake): void {
  const exercises = Object.entries(written.exercises ?? {});
  if (gathering.exercises.size + exercises.length > MOST.exercises)
    return report(['exercises'], `with what it includes the routine has more than ${MOST.exercises} exercises.`, 'key');
  for (const [id, exercise] of exercises) {
    if (gathering.exercises.has(id))
      report(['exercises', id], `an exercise '${id}' came in from an included file; choose another name.`, 'key');
    const reportSetting: ReportSetting = (setting, right, whole) => {
      const value = { ...written.defaults, ...exercise }[setting as keyof typeof exercise];
      const path = setting in exercise || value === undefined ? ['exercises', id, setting] : ['defaults', setting];
      const sentence =
        whole === undefined
          ? `'${setting}' is ${value === undefined ? 'missing' : shown(value)}; write ${right}.`
          : right;
      report(path, sentence, 'value', (whole?.at ?? 1) - 1);
    };
    const whole = exerciseOfWritten({ name: id, file: idOf(file) }, exercise, written.defaults ?? {}, reportSetting);
    checkHistory(whole, gathering, report);
    gathering.exercises.set(id, whole);
  }
}

function takePools(written: WrittenRoutine, gathering: Gathering, report: ReportMistake): void {
  for (const [id, pool] of Object.entries(written.pools ?? {})) {
    if (gathering.exercises.has(id))
      report(['pools', id], `'${id}' is an exercise already; choose another name for the pool.`, 'key');
    if (gathering.pools.has(id))
      report(['pools', id], `a pool '${id}' came in from an included file; choose another name.`, 'key');
    gathering.pools.set(id, poolOfWritten(id, pool, gathering.exercises, report));
  }
}

function takeInclude(
  name: string,
  index: number | null,
  chain: readonly string[],
  gathering: Gathering,
  report: ReportMistake,
): void {
  const path = index === null ? ['include'] : ['include', index];
  if (chain.includes(name)) {
    report(
      path,
      `'include' goes in a circle: ${[...chain, name].map((file) => harmless(file)).join(', then ')}; take one ` +
        `of them out.`,
    );
    return;
  }
  if (gathering.taken.has(name)) return;
  gathering.taken.add(name);
  if (gathering.taken.size > MOST.files) return report(path, `more than ${MOST.files} files are included.`);
  const read = gathering.readInclude(name);
  if ('trouble' in read) report(path, read.trouble);
  else gather(read.text, [...chain, name], gathering);
}

/** 'cornet-daily/five-notes' where a block says so; null for a name of this file. */
function elsewhere(block: WrittenBlock): readonly [name: string, file: string, exercise: string] | null {
  const name = block.play ?? Object.keys(block)[0] ?? '';
  const [file = '', exercise] = `${name}`.split('/');
  return exercise === undefined ? null : [`${name}`, file, exercise];
}

/** The exercises of another file, without taking them into this one; a sentence where it cannot be used. */
function exercisesOfFile(file: string, { readInclude }: Gathering): ReadonlyMap<string, Exercise> | string {
  const other: Gathering = { exercises: new Map(), pools: new Map(), troubles: [], readInclude, taken: new Set() };
  const first = readInclude(`${file}.yaml`);
  const short = 'trouble' in first ? readInclude(`${file}.yml`) : first;
  const read = 'trouble' in short ? first : short;
  if ('trouble' in read) return read.trouble.replace('cannot be included', 'cannot be used');
  gather(read.text, [`${file}.yaml`], other);
  const [wrong] = other.troubles;
  return wrong ? `'${file}.yaml' cannot be used: line ${wrong.line}: ${wrong.sentence}` : other.exercises;
}

/** Blocks may play an exercise of another file by its file and name. */
function takeReferred(written: WrittenRoutine, gathering: Gathering, report: ReportMistake): void {
  const files = new Map<string, ReturnType<typeof exercisesOfFile>>();
  written.parts?.forEach(({ blocks }, p) =>
    blocks.forEach((block, b) => {
      const meant = elsewhere(block as WrittenBlock);
      if (meant === null || gathering.exercises.has(meant[0])) return;
      const [name, file, exercise] = meant;
      const found = files.get(file) ?? exercisesOfFile(file, gathering);
      files.set(file, found);
      const one = typeof found === 'string' ? undefined : found.get(exercise);
      if (one) gathering.exercises.set(name, one);
      else if (typeof found === 'string') report(['parts', p, 'blocks', b], found);
    }),
  );
}

/** Takes in a file after those that it includes; null if it cannot be read as one. */
function gather(
  text: string,
  chain: readonly string[],
  gathering: Gathering,
): { written: WrittenRoutine; report: ReportMistake } | null {
  const file = chain.at(-1) ?? '';
  const yaml = readYaml(text.replace(/^\ufeff/, ''), file);
  const checked = 'troubles' in yaml ? yaml : checkWritten(yaml, file);
  if ('troubles' in yaml || 'troubles' in checked) {
    gathering.troubles.push(...('troubles' in checked ? checked.troubles : []));
    return null;
  }
  const { written } = checked;
  const report = reporter(gathering, yaml, file);
  const isList = Array.isArray(written.include);
  asList(written.include).forEach((name, i) => takeInclude(name, isList ? i : null, chain, gathering, report));
  takeExercises(written, file, gathering, report);
  takePools(written, gathering, report);
  return { written, report };
}

function breaksOf(written: WrittenRoutine, report: ReportMistake): Breaks | null {
  if (written.breaks === undefined) return DEFAULT_BREAKS;
  if (written.breaks === 'none') return null;
  const [minutes = 0, after = 0] = written.breaks.split(' after ').map(Number);
  if (minutes < 1 || after < 1)
    report(['breaks'], `'breaks' is ${shown(written.breaks)}; write minutes above nothing, like 5 after 25.`);
  return { after, minutes };
}

function instrumentOf(written: WrittenRoutine, report: ReportMistake): string {
  const name = written.instrument ?? DEFAULT_INSTRUMENT;
  const instrument = instrumentNamed(name);
  if (instrument !== null) return instrument.id;
  const right = didYouMean(
    name,
    INSTRUMENTS.flatMap((one) => [one.id, one.name]),
    `write one of ${INSTRUMENTS.map(({ id }) => id).join(', ')}.`,
  );
  report(['instrument'], `'instrument' is ${shown(name)}, which is not known; ${right}`);
  return name;
}

/** A pool can only keep its promise if it is drawn from often enough. */
function checkPools(
  written: WrittenRoutine,
  pools: Iterable<Pool>,
  parts: readonly Part[],
  report: ReportMistake,
): void {
  const blocks = parts.flatMap((part) => part.blocks);
  for (const { id, items, everyDays } of pools) {
    const draws = blocks.filter(({ content }) => content.is === 'pool' && content.pool === id).length;
    if (draws === 0 || items.length <= draws * everyDays) continue;
    const path = written.pools?.[id] === undefined ? ['parts'] : ['pools', id];
    report(
      path,
      `the pool '${id}' has ${items.length} exercises for every ${everyDays} days, and ${draws} drawn a day are ` +
        `too few; allow more days.`,
    );
  }
}

/** A file of exercises that names no instrument is for whichever the player has. */
const instrumentsMeant = (written: WrittenRoutine, known: Instrument): readonly Instrument[] =>
  written.instrument === undefined && written.parts === undefined ? [known, ...INSTRUMENTS] : [known];

/** What would be right for a place that none of the instruments has. */
function troubleOnAll(exercise: Exercise, place: Place, instruments: readonly Instrument[]): string | null {
  const [first, ...others] = instruments;
  const right = first ? placeTrouble(exercise, place, first) : null;
  return right === null || others.some((one) => placeTrouble(exercise, place, one) === null) ? null : right;
}

function checkBlocks({ parts = [] }: WrittenRoutine, report: ReportMistake): void {
  const blocks = parts.reduce((sum, part) => sum + part.blocks.length, 0);
  if (blocks > MOST.blocks)
    report(['parts'], `the routine has ${blocks} blocks; at most ${MOST.blocks} may stand in a day.`, 'key');
}

const FAMILIES: Readonly<Record<string, Instrument['family']>> = { brass: 'brass', reeds: 'reed', flutes: 'flute' };

/** Who else it is for, as ids of instruments. */
function forWhom(written: WrittenRoutine, report: ReportMistake): readonly string[] {
  return [written.for ?? []].flat().flatMap((name) => {
    const family = Object.hasOwn(FAMILIES, name) ? FAMILIES[name] : undefined;
    if (family !== undefined) return INSTRUMENTS.filter((one) => one.family === family).map(({ id }) => id);
    const instrument = instrumentNamed(name);
    if (instrument !== null) return [instrument.id];
    const known = [...Object.keys(FAMILIES), ...INSTRUMENTS.map(({ id }) => id)];
    report(['for'], `'for' is ${shown(name)}; ${didYouMean(name, known, `write ${known.join(', ')}.`)}`);
    return [];
  });
}

/** Places that the instrument does not have, of exercises and of blocks; each is complained of where it is written. */
function checkPlaces(
  written: WrittenRoutine,
  { exercises }: Gathering,
  parts: readonly Part[],
  instrument: Instrument,
  report: ReportMistake,
): void {
  const meant = instrumentsMeant(written, instrument);
  const check = (path: Path, said: WrittenPlace | undefined, exercise: Exercise | undefined): void => {
    const place = said && placeOf(said);
    const right = exercise && place ? troubleOnAll(exercise, place, meant) : null;
    if (right === null || !said) return;
    const [name, value] = said.from === undefined ? ['register', said.register] : ['from', said.from];
    report([...path, name], `'${name}' is ${shown(value)}; write ${right}.`);
  };
  for (const [id, exercise] of Object.entries(written.exercises ?? {}))
    check(['exercises', id], exercise, exercises.get(id));
  parts.forEach(({ blocks }, p) => {
    blocks.forEach(({ content, place }, b) => {
      const exercise = content.is === 'exercise' ? exercises.get(content.exercise) : undefined;
      check(['parts', p, 'blocks', b], place, exercise);
    });
  });
}

/** Blocks and pools are written with the exercises' own names; they are kept under others where the file says so. */
const identifiedAlone = (routine: Routine): Routine => identified([routine])[0] ?? routine;

/**
 * Pure: other files come through `readInclude`. Reports all troubles at once, in the order of files and lines.
 * A file without parts yields a routine whose exercises can be practised but which has no day.
 */
export function parseRoutine(text: string, fileName: string, readInclude: ReadInclude): ParsedRoutine {
  const gathering: Gathering = { exercises: new Map(), pools: new Map(), troubles: [], readInclude, taken: new Set() };
  const read = gather(text, [fileName], gathering);
  if (read === null) return { troubles: named(inOrder(gathering.troubles)) };
  const { written, report } = read;
  takeReferred(written, gathering, report);
  checkBlocks(written, report);
  const parts = partsOfWritten(written.parts ?? [], gathering, report);
  checkPools(written, gathering.pools.values(), parts, report);
  const breaks = breaksOf(written, report);
  const instrument = instrumentOf(written, report);
  const others = forWhom(written, report);
  const known = instrumentNamed(instrument);
  if (known !== null && gathering.troubles.length === 0) checkPlaces(written, gathering, parts, known, report);
  if (gathering.troubles.length > 0) return { troubles: named(inOrder(gathering.troubles)) };
  const routine: Routine = {
    id: idOf(fileName),
    title: written.routine ?? idOf(fileName),
    about: written.about ?? '',
    instrument,
    ...(others.length > 0 ? { for: others } : {}),
    ...(written.level ? { level: written.level } : {}),
    exercises: [...gathering.exercises].map(([id, exercise]) => ({ ...exercise, id })),
    pools: [...gathering.pools.values()],
    parts,
    limits: {
      sameKind: written.limits?.['same kind'] ?? DEFAULT_LIMITS.sameKind,
      highLoad: written.limits?.['high load'] ?? DEFAULT_LIMITS.highLoad,
    },
    breaks,
    order: written.order ?? 'blocked',
  };
  return { routine: identifiedAlone(routine) };
}

/** UTF-8 bytes to text, or where the first byte that is none stands. */
export function readUtf8(
  bytes: Uint8Array,
  file: string,
): { readonly text: string } | { readonly troubles: readonly FileTrouble[] } {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    const sentence = 'a letter here is not UTF-8 (Latin-1 perhaps); save the file as UTF-8.';
    return { troubles: [{ file, ...firstBroken(bytes), sentence }] };
  }
}

function firstBroken(bytes: Uint8Array): { readonly line: number; readonly column: number } {
  const before = new TextDecoder('utf-8').decode(bytes).split('\ufffd')[0];
  if (before === undefined) return START;
  const lines = before.split('\n');
  return { line: lines.length, column: [...(lines.at(-1) ?? '')].length + 1 };
}
