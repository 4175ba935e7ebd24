/**
 * Under which name each exercise is kept. Names are unique in a file, and two files may have the same one; an exercise
 * that is included is the same everywhere.
 */
import type { Exercise } from './exercise.ts';
import type { Block, Part, Pool, Routine } from './routine.ts';

/** A file's name as part of an exercise's: the same on every system, without what a line of the journal is cut at. */
const fileName = (file: string): string => file.normalize('NFC').replace(/[^\p{L}\p{N}._-]+/gu, '-');

/** `qualifiedName({ file: 'cornet-daily', name: 'five-notes' })` is 'cornet-daily/five-notes'. */
export const qualifiedName = ({ file, name }: Pick<Exercise, 'file' | 'name'>): string => `${fileName(file)}/${name}`;

/** Whether another exercise of these has the same title, so that its file has to be said. */
const isAmbiguous = (exercise: Exercise, among: readonly Exercise[]): boolean =>
  among.some(({ id, title }) => id !== exercise.id && title === exercise.title);

/** The file of an exercise whose title another one has too; null where its title is enough. */
export const fileToTell = (exercise: Exercise, among: readonly Exercise[]): string | null =>
  isAmbiguous(exercise, among) ? exercise.file : null;

/** 'Five notes'; where another exercise of these has that title too, 'Five notes (cornet-daily)'. */
export function titleAmong(exercise: Exercise, among: readonly Exercise[]): string {
  const file = fileToTell(exercise, among);
  return file === null ? exercise.title : `${exercise.title} (${file})`;
}

/** The file that has a name first; one that names its own history does not use it up. */
function firstFiles(routines: readonly Routine[]): ReadonlyMap<string, string> {
  const first = new Map<string, string>();
  for (const { file, name, history } of routines.flatMap(({ exercises }) => exercises))
    if (history === undefined && !first.has(name)) first.set(name, file);
  return first;
}

const idOf = (exercise: Exercise, first: ReadonlyMap<string, string>): string => {
  const { history, name, file } = exercise;
  return history ?? (first.get(name) === file ? name : qualifiedName(exercise));
};

type Renamed = (id: string) => string;

const inBlock = (block: Block, renamed: Renamed): Block =>
  block.content.is === 'exercise'
    ? { ...block, content: { is: 'exercise', exercise: renamed(block.content.exercise) } }
    : block;

const inPart = (part: Part, renamed: Renamed): Part => ({
  ...part,
  blocks: part.blocks.map((block) => inBlock(block, renamed)),
});

const inPool = (pool: Pool, renamed: Renamed): Pool => ({ ...pool, items: pool.items.map(renamed) });

function settled(routine: Routine, first: ReadonlyMap<string, string>): Routine {
  const ids = new Map(routine.exercises.map((exercise) => [exercise.id, idOf(exercise, first)]));
  const renamed: Renamed = (id) => ids.get(id) ?? id;
  return {
    ...routine,
    exercises: routine.exercises.map((exercise) => ({ ...exercise, id: renamed(exercise.id) })),
    parts: routine.parts.map((part) => inPart(part, renamed)),
    pools: routine.pools.map((pool) => inPool(pool, renamed)),
  };
}

/**
 * All routines with the names settled under which their exercises are kept; blocks and pools follow. The order is that
 * in which they were found, the player's own before the packaged ones: the bare name, and what older journals have
 * under it, belongs to the first file that has it. Doing it again changes nothing.
 */
export function identified(routines: readonly Routine[]): readonly Routine[] {
  const first = firstFiles(routines);
  return routines.map((routine) => settled(routine, first));
}
