/** From blocks, parts and pools as written to whole ones. */
import { type Path } from './place-in-file.ts';
import { readArticulation } from '../../music/tongue/articulation.ts';
import type { Exercise } from '../routine/exercise.ts';
import { harmless } from '../../common/harmless-text.ts';
import { nearest } from '../../common/nearest-word.ts';
import * as word from './value-words.ts';
import type { Block, BlockContent, Part, Pool } from '../routine/routine.ts';
import { bothPlaces, placeOf } from './place-on-instrument.ts';
import { droneOf, titleOf } from './exercise-defaults.ts';
import {
  BLOCK_KEYS,
  type WrittenBlock,
  type WrittenFullBlock,
  type WrittenPart,
  type WrittenPool,
} from './routine-schema.ts';

/** A whole sentence about what is written at a path, or so many columns further on. */
export type ReportMistake = (path: Path, sentence: string, which?: 'key' | 'value', further?: number) => void;

/** What a block may refer to. */
interface ExercisesAndPools {
  readonly exercises: ReadonlyMap<string, Exercise>;
  readonly pools: ReadonlyMap<string, Pool>;
}

const slug = (words: string): string =>
  words
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '') || 'block';

/** Gives each name once: 'scales', 'scales-2', ... */
function namer(): (words: string) => string {
  const taken = new Map<string, number>();
  return (words) => {
    const base = slug(words);
    const count = (taken.get(base) ?? 0) + 1;
    taken.set(base, count);
    return count === 1 ? base : `${base}-${count}`;
  };
}

function unknown(kind: string, id: string, names: Iterable<string>): string {
  const meant = nearest(id, names);
  return `there is no ${kind} '${harmless(id, 40)}'${meant === null ? '.' : `; did you mean '${meant}'?`}`;
}

export function poolOfWritten(
  id: string,
  written: WrittenPool,
  known: ReadonlyMap<string, Exercise>,
  report: ReportMistake,
): Pool {
  const said = Array.isArray(written) ? { items: written } : written;
  const path = Array.isArray(written) ? ['pools', id] : ['pools', id, 'items'];
  said.items.forEach((item, index) => {
    if (!known.has(item)) report([...path, index], unknown('exercise', item, known.keys()));
  });
  const every = 'every' in said && said.every !== undefined ? word.readDays(said.every) : 14;
  return {
    id,
    title: ('title' in said ? said.title : undefined) ?? titleOf(id),
    items: [...new Set(said.items)],
    everyDays: every,
  };
}

/** Nothing at all is a whole block that says nothing. */
function isFull(written: WrittenBlock): written is WrittenFullBlock {
  const names = Object.keys(written);
  return names.length === 0 || names.some((name) => BLOCK_KEYS.includes(name));
}

function opened(written: WrittenBlock, known: ExercisesAndPools): WrittenFullBlock {
  if (isFull(written)) return written;
  const [name = '', minutes] = Object.entries(written)[0] ?? [];
  const length = minutes === undefined ? {} : { minutes: minutes as number };
  return known.pools.has(name) ? { draw: name, ...length } : { play: name, ...length };
}

function contentOf(
  written: WrittenFullBlock,
  known: ExercisesAndPools,
  reportHere: (sentence: string) => void,
): BlockContent | null {
  const said = (['play', 'draw', 'do', 'rest'] as const).filter((name) => written[name] !== undefined);
  if (said.length !== 1) {
    reportHere(
      `a block has one of play, draw, do and rest; here ` +
        `${said.length === 0 ? 'is none' : `are ${said.join(' and ')}`}.`,
    );
    return null;
  }
  const { play, draw } = written;
  if (play !== undefined) {
    if (!known.exercises.has(play))
      reportHere(unknown('exercise', play, [...known.exercises.keys(), ...known.pools.keys()]));
    return { is: 'exercise', exercise: play };
  }
  if (draw !== undefined) {
    if (!known.pools.has(draw)) reportHere(unknown('pool', draw, known.pools.keys()));
    return { is: 'pool', pool: draw };
  }
  return { is: written.do === undefined ? 'rest' : 'body' };
}

/** The exercises that a block may turn out to be. */
function behind(content: BlockContent, known: ExercisesAndPools): readonly Exercise[] {
  const ids =
    content.is === 'exercise'
      ? [content.exercise]
      : content.is === 'pool'
        ? (known.pools.get(content.pool)?.items ?? [])
        : [];
  return ids.flatMap((id) => known.exercises.get(id) ?? []);
}

function usualTitle(written: WrittenFullBlock, content: BlockContent, known: ExercisesAndPools): string {
  if (content.is === 'exercise') return known.exercises.get(content.exercise)?.title ?? titleOf(content.exercise);
  if (content.is === 'pool') return known.pools.get(content.pool)?.title ?? titleOf(content.pool);
  return written.do ?? 'Rest';
}

function lengthsOf(written: WrittenFullBlock, report: ReportMistake, path: Path): Pick<Block, 'minutes' | 'least'> {
  const minutes = written.rest ?? written.minutes ?? 5;
  const least = written.least ?? Math.min(minutes, Math.max(1, Math.ceil(minutes / 2)));
  if (least > minutes)
    report([...path, 'least'], `'least' is ${least}; write no more than the block's ${minutes} minutes.`);
  return { minutes, least };
}

/** An articulation under its own name; what is none keeps the player's word. */
function nameOf(words: string): string {
  const articulation = readArticulation(words);
  return typeof articulation === 'string' ? words : articulation.name;
}

function narrowed(
  written: WrittenFullBlock,
  exercises: readonly Exercise[],
  report: ReportMistake,
  path: Path,
): Pick<Block, 'keys' | 'articulations'> {
  const read = written.keys === undefined ? null : word.readKeys(written.keys);
  if (typeof read === 'string') report([...path, 'keys'], read);
  const keys = typeof read === 'string' ? null : read;
  const articulations = written.articulations === undefined ? null : word.asList(written.articulations).map(nameOf);
  const known = new Set(exercises.flatMap((exercise) => exercise.articulations));
  articulations?.forEach((name) => {
    if (!known.has(name))
      report([...path, 'articulations'], unknown('articulation', name, known).replace("'.", "' in this exercise."));
  });
  const inKeys = new Set(exercises.flatMap((exercise) => exercise.keys));
  keys?.forEach((key) => {
    if (!inKeys.has(key))
      report([...path, 'keys'], `'${key}' is none of this exercise's keys; write some of ${[...inKeys].join(', ')}.`);
  });
  return { keys, articulations };
}

function placeSaid(written: WrittenFullBlock, report: ReportMistake, path: Path): Pick<Block, 'place'> {
  const both = bothPlaces(written);
  if (both !== null) report([...path, 'from'], both);
  const place = placeOf(written);
  return place === undefined ? {} : { place };
}

/** A drone needs a key, which an exercise has. */
function droneOfBlock(
  { drone }: WrittenFullBlock,
  exercises: readonly Exercise[],
  report: ReportMistake,
  path: Path,
): Pick<Block, 'drone'> {
  if (drone === undefined) return {};
  if (exercises.length === 0)
    report([...path, 'drone'], "'drone' needs a key; write it beside play or draw, or leave it out.");
  return { drone: droneOf(drone) };
}

function blockOfWritten(
  raw: WrittenBlock,
  warmUp: boolean,
  known: ExercisesAndPools,
  name: (w: string) => string,
  report: ReportMistake,
  path: Path,
): Block | null {
  const written = opened(raw, known);
  const isShort = !isFull(raw);
  const place = isShort ? [...path, Object.keys(raw)[0] ?? 0] : path;
  const content = contentOf(written, known, (sentence) => report(place, sentence, isShort ? 'key' : 'value'));
  if (content === null) return null;
  const exercises = behind(content, known);
  const title = written.title ?? usualTitle(written, content, known);
  const isWarmUp = written['warm up'] === undefined ? warmUp : word.isYes(written['warm up']);
  return {
    id: name(content.is === 'exercise' ? content.exercise : title),
    title,
    content,
    kind: content.is === 'rest' ? 'rest' : (written.kind ?? exercises[0]?.kind ?? 'body'),
    ...lengthsOf(written, report, path),
    everyDays: written.every === undefined ? 1 : word.readDays(written.every),
    want: written.want ?? 3,
    always: isWarmUp || word.isYes(written.always),
    warmUp: isWarmUp,
    highLoad:
      written.load === undefined ? exercises.some((exercise) => exercise.highLoad === true) : written.load === 'high',
    atEnd: written['at end'] ?? 'wait',
    cues: word.asList(written.cues),
    material: written.material ?? (content.is === 'exercise' ? (exercises[0]?.material ?? null) : null),
    ...narrowed(written, exercises, report, path),
    ...placeSaid(written, report, path),
    breaths: written.breaths ?? (content.is === 'exercise' ? (exercises[0]?.breaths ?? null) : null),
    ...droneOfBlock(written, exercises, report, path),
  };
}

export function partsOfWritten(
  written: readonly WrittenPart[],
  known: ExercisesAndPools,
  report: ReportMistake,
): readonly Part[] {
  const partName = namer();
  const blockName = namer();
  return written.map((part, p) => ({
    id: partName(part.part),
    title: part.part,
    blocks: part.blocks.flatMap(
      (block, b) =>
        blockOfWritten(block, word.isYes(part['warm up']), known, blockName, report, ['parts', p, 'blocks', b]) ?? [],
    ),
  }));
}
